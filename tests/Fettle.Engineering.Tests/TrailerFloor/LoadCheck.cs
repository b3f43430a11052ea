using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.TrailerFloor;

/// <summary>Judges a trailer plan from its positions alone.</summary>
internal static class LoadCheck
{
    public static void IsAPlan(LoadPlan plan, IReadOnlyList<LoadUnits> units, Trailer trailer, Decking? decking)
    {
        for (var kind = 0; kind < units.Count; kind++)
            Assert.Equal(units[kind].Count, plan.Positions.Count(p => p.Kind == kind) + plan.LeftOut.Where(l => l.Kind == kind).Sum(l => l.Count));
        Assert.True(plan.LowerBound <= plan.LengthUsed, $"{plan.LengthUsed} under the bound {plan.LowerBound}");
        Assert.True(plan.LengthUsed <= trailer.Length);
        Assert.Equal(plan.LengthUsed, plan.Positions.Select(p => p.Place.Right).DefaultIfEmpty().Max());
        for (var i = 0; i < plan.Positions.Count; i++)
        {
            var a = plan.Positions[i];
            HasItsSize(a, units[a.Kind]);
            Assert.True(a.Place.X >= Length.Zero && a.Place.Y >= Length.Zero && a.Place.Top <= trailer.Width, $"{a} leaves the trailer");
            Assert.True(a.Bottom >= Length.Zero && a.Top <= trailer.Height, $"{a} is through the roof");
            for (var j = 0; j < i; j++)
                Assert.True(Apart(a, plan.Positions[j]), $"{a} and {plan.Positions[j]} overlap");
            Stands(plan, i, units, decking);
        }

        if (decking is not null)
            BeamsBear(plan, units, decking);
    }

    private static void HasItsSize(LoadPosition position, LoadUnits unit)
    {
        var straight = position.Place.Length == unit.Length && position.Place.Width == unit.Width;
        var turned = unit.MayTurn && position.Place.Length == unit.Width && position.Place.Width == unit.Length;
        Assert.True((straight || turned) && position.Height == unit.Height, $"{position} is not {unit}");
    }

    private static bool Apart(LoadPosition a, LoadPosition b) =>
        a.Place.Right <= b.Place.X || b.Place.Right <= a.Place.X
        || a.Place.Top <= b.Place.Y || b.Place.Top <= a.Place.Y
        || a.Top <= b.Bottom || b.Top <= a.Bottom;

    /// <summary>On the floor, on the deck with the beams' depth free below it, or on a unit that bears it and all that stands on it.</summary>
    private static void Stands(LoadPlan plan, int index, IReadOnlyList<LoadUnits> units, Decking? decking)
    {
        var a = plan.Positions[index];
        var above = Above(plan, index).Aggregate(Mass.Zero, (sum, i) => sum + units[plan.Positions[i].Kind].Weight);
        Assert.True(above <= units[a.Kind].MayBear, $"{a} carries {above}, and may bear {units[a.Kind].MayBear}");
        if (a.On is { } carrier)
        {
            var below = plan.Positions[carrier];
            Assert.True(carrier < index);
            Assert.True(units[a.Kind].MayRide && units[below.Kind].MayBear > Mass.Zero);
            Assert.Equal(below.Top, a.Bottom);
            Assert.True(a.Place.X >= below.Place.X && a.Place.Right <= below.Place.Right && a.Place.Y >= below.Place.Y && a.Place.Top <= below.Place.Top, $"{a} hangs over {below}");
            Assert.Equal(below.Level + 1, a.Level);
            Assert.True(a.Level <= LoadLevel.Top);
        }
        else if (a.Level == LoadLevel.Floor)
        {
            Assert.Equal(Length.Zero, a.Bottom);
        }
        else
        {
            Assert.Equal(LoadLevel.Second, a.Level);
            Assert.Equal(plan.DeckHeight, a.Bottom);
            var lost = Assert.IsType<Decking>(decking).Lost;
            foreach (var b in plan.Positions.Where(b => b.Bottom < a.Bottom && b.Place.X < a.Place.Right && a.Place.X < b.Place.Right))
                Assert.True(b.Top + lost <= a.Bottom, $"{b} leaves no room for the beams under {a}");
        }
    }

    private static IEnumerable<int> Above(LoadPlan plan, int index) => Enumerable.Range(0, plan.Positions.Count)
        .Where(i => plan.Positions[i].On == index)
        .SelectMany(i => Above(plan, i).Prepend(i));

    /// <summary>Across the trailer, at each place where a unit on the deck begins.</summary>
    private static void BeamsBear(LoadPlan plan, IReadOnlyList<LoadUnits> units, Decking decking)
    {
        int[] onDeck = [.. Enumerable.Range(0, plan.Positions.Count).Where(i => plan.Positions[i].IsOnDeck)];
        foreach (var at in onDeck.Select(i => plan.Positions[i].Place.X))
        {
            var load = onDeck.Where(i => plan.Positions[i].Place.X <= at && at < plan.Positions[i].Place.Right)
                .SelectMany(i => Above(plan, i).Prepend(i))
                .Aggregate(Mass.Zero, (sum, i) => sum + units[plan.Positions[i].Kind].Weight);
            Assert.True(load <= decking.PairRating, $"A pair of beams carries {load}");
        }
    }
}
