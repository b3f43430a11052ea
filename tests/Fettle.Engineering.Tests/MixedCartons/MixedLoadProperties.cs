using CsCheck;
using Fettle.Engineering.MixedCartons;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.MixedCartons;

/// <summary>What holds of every load. Each is judged by <see cref="MixedLoadCheck"/>.</summary>
public class MixedLoadProperties
{
    private static readonly Gen<CartonKind> Kind = Gen.Select(
        Gen.OneOf(Gen.Int[4, 26].Select(n => In(n)), Gen.Int[120, 600].Select(n => Length.FromMillimetres(n))),
        Gen.Int[4, 22].Select(n => In(n)),
        Gen.Int[0, 5].Select(i => In(new[] { 6.0, 8, 10, 12, 12.5, 20 }[i])),
        Gen.Int[1, 60].Select(n => Lb(n)),
        Gen.Int[0, 14],
        Gen.OneOf(Gen.Const(0), Gen.Int[10, 800]).Select(n => Lbf(n)),
        Gen.Bool,
        (l, w, h, m, n, b, up) => new CartonKind(l, w, h, m, n, b, up));

    private static readonly (double Length, double Width)[] decks = [(48, 40), (48, 48), (47.25, 31.5), (20, 60)];

    private static readonly Gen<PalletRoom> Room = Gen.Select(
        Gen.Int[0, 3].Select(i => decks[i]), Gen.Int[10, 90], Gen.Int[50, 3000], Gen.Int[0, 3].Select(i => new[] { 0.6, 0.8, 0.95, 1 }[i]),
        (deck, h, m, s) => new PalletRoom(In(deck.Length), In(deck.Width), In(h), Lb(m), s));

    private static Length In(double inches) => Length.FromInches(inches);

    private static Mass Lb(double pounds) => Mass.FromPounds(pounds);

    private static Force Lbf(double poundsForce) => Force.FromPoundsForce(poundsForce);

    private static MixedLoad Build(PalletRoom room, params CartonKind[] kinds)
    {
        var load = MixedLoadBuilder.Build(kinds, room);
        MixedLoadCheck.IsSound(load, kinds, room);
        return load;
    }

    [Fact]
    public void Every_load_is_whole_within_its_limits_supported_and_uncrushed() =>
        Gen.Select(Kind.Array[1, 12], Room).Sample((kinds, room) => { Build(room, kinds); }, iter: 150);

    [Fact]
    public void Equal_questions_have_equal_answers() =>
        Gen.Select(Kind.Array[1, 8], Room).Sample(
            (kinds, room) => Assert.Equal(MixedLoadBuilder.Build(kinds, room).Cartons, MixedLoadBuilder.Build(kinds, room).Cartons), iter: 20);

    [Fact]
    public void What_could_not_be_placed_by_strength_is_placed_when_everything_is_strong() =>
        Gen.Select(Kind.Array[1, 6], Room).Sample((kinds, room) =>
        {
            CartonKind[] strong = [.. kinds.Select(k => k with { Bears = Lbf(1e6) })];
            Assert.DoesNotContain(Build(room, strong).LeftOut, l => l.Reason == LeftOutReason.Strength && strong[l.Kind].KeepUpright && strong.All(k => k.KeepUpright));
        }, iter: 40);
}
