using Fettle.Engineering.Patterns;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.TrailerFloor;

/// <summary>Short ways to write freight in inches and pounds.</summary>
internal static class InInches
{
    public static Length In(double inches) => Length.FromInches(inches);

    public static Mass Lb(double pounds) => Mass.FromPounds(pounds);

    public static Placement Place(double x, double y, double length, double width) => new(In(x), In(y), In(length), In(width));

    public static LoadUnits One(double length, double width, double height, double weight, double bears = 0, bool rides = false, bool turns = true) =>
        new(In(length), In(width), In(height), Lb(weight), 1, Lb(bears), rides, turns);

    /// <summary>A floor in whole numbers, each kind as long, as wide, as many, and turned or not.</summary>
    public static Strip Strip(long width, params (long Length, long Width, int Count, bool MayTurn)[] kinds) => new(width, kinds);

    /// <summary>One unit each of 1, 2, 4 and so on across: every width from 0 to 8,191 can be filled, which is more than are listed.</summary>
    public static Strip TooManySums { get; } = Strip(10_000, [.. Enumerable.Range(0, 13).Select(k => (4L, 1L << k, 1, false))]);
}
