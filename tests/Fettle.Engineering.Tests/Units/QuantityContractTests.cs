using System.Text.Json;
using CsCheck;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Units;

/// <summary>What every quantity promises, checked in one place for all of them.</summary>
public class QuantityContractTests
{
    [Fact]
    public void Length_keeps_its_contract() => Contract(
        Gen.Long[-1_000_000_000_000, 1_000_000_000_000].Select(Length.FromNanometres),
        (a, b) => ((a < b), (a > b), a <= b, a >= b), Length.Max, Length.Min);

    [Fact]
    public void Mass_keeps_its_contract() => Contract(
        Gen.Long[-1_000_000_000_000_000, 1_000_000_000_000_000].Select(Mass.FromNanograms),
        (a, b) => ((a < b), (a > b), a <= b, a >= b), Mass.Max, Mass.Min);

    [Fact]
    public void Force_keeps_its_contract() => Contract(
        Gen.Int[-100_000, 100_000].Select(n => Force.FromNewtons(n / 8.0)),
        (a, b) => ((a < b), (a > b), a <= b, a >= b), Force.Max, Force.Min);

    [Fact]
    public void Density_keeps_its_contract() => Contract(
        Gen.Int[0, 100_000].Select(n => Density.FromKilogramsPerCubicMetre(n / 8.0)),
        (a, b) => ((a < b), (a > b), a <= b, a >= b), null, null);

    private static void Contract<T>(
        Gen<T> any, Func<T, T, (bool Less, bool More, bool LessOrEqual, bool MoreOrEqual)> compare, Func<T, T, T>? max, Func<T, T, T>? min)
        where T : struct, IComparable<T>, IEquatable<T>
    {
        Gen.Select(any, any, Gen.Bool).Sample((a, other, same) =>
        {
            var b = same ? a : other;
            var order = Math.Sign(a.CompareTo(b));
            Assert.Equal(-order, Math.Sign(b.CompareTo(a)));
            Assert.Equal((order < 0, order > 0, order <= 0, order >= 0), compare(a, b));
            Assert.Equal(order == 0, a.Equals(b));
            if (order == 0)
                Assert.Equal(a.GetHashCode(), b.GetHashCode());
            if (max is not null && min is not null)
            {
                Assert.Equal(order >= 0 ? a : b, max(a, b));
                Assert.Equal(order <= 0 ? a : b, min(a, b));
            }

            Assert.Equal(a, JsonSerializer.Deserialize<T>(JsonSerializer.Serialize(a)));
        });
        Assert.Equal(JsonSerializer.Serialize(default(T)), JsonSerializer.Serialize(JsonSerializer.Deserialize<T>(JsonSerializer.Serialize(default(T)))));
    }
}
