namespace Fettle.Engineering.Statistics;

/// <summary>A range that a rate lies in, ends included, with a stated confidence.</summary>
/// <param name="Low">Lower end, 0 to 1 for a rate.</param>
/// <param name="High">Upper end, 0 to 1 for a rate.</param>
public readonly record struct Interval(double Low, double High)
{
    /// <summary>All that is known before anything was seen: any rate at all.</summary>
    public static readonly Interval Anything = new(0, 1);

    /// <summary>Upper end less lower end.</summary>
    public double Width => High - Low;

    /// <summary>Whether a value lies in the range, ends included.</summary>
    public bool Contains(double value) => value >= Low && value <= High;
}
