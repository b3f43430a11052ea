using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stability;

/// <summary>A part of a load and where its own centre of gravity is.</summary>
/// <param name="Mass">Its mass, zero or more.</param>
/// <param name="Height">Height of its centre of gravity above the floor.</param>
/// <param name="Along">How far it lies from the platform's centre, lengthways; zero when centred.</param>
/// <param name="Across">How far it lies from the platform's centre, crossways; zero when centred.</param>
public readonly record struct Part(Mass Mass, Length Height, Length Along = default, Length Across = default)
{
    /// <summary>A uniform body of a height standing at a level: its centre of gravity is half way up.</summary>
    public static Part Uniform(Mass mass, Length standsAt, Length height) => new(mass, standsAt + (height / 2));
}

/// <summary>Where the weight of a whole load acts.</summary>
/// <param name="Mass">Mass of all parts.</param>
/// <param name="Height">Height above the floor.</param>
/// <param name="Along">Distance from the platform's centre, lengthways.</param>
/// <param name="Across">Distance from the platform's centre, crossways.</param>
public readonly record struct CentreOfGravity(Mass Mass, Length Height, Length Along, Length Across)
{
    /// <summary>The mass-weighted mean of the parts' places; the same to the nanometre in whatever order they come.</summary>
    /// <exception cref="ArgumentException">The parts have no mass together.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A part has a negative mass.</exception>
    public static CentreOfGravity Of(IEnumerable<Part> parts)
    {
        var mass = Mass.Zero;
        Int128 height = 0, along = 0, across = 0;
        foreach (var part in parts)
        {
            if (part.Mass < Mass.Zero)
                throw new ArgumentOutOfRangeException(nameof(parts), part.Mass, "A part has a negative mass.");
            mass += part.Mass;
            height += Moment(part.Mass, part.Height);
            along += Moment(part.Mass, part.Along);
            across += Moment(part.Mass, part.Across);
        }

        if (mass == Mass.Zero)
            throw new ArgumentException("The parts have no mass together.", nameof(parts));
        return new(mass, Mean(height, mass), Mean(along, mass), Mean(across, mass));
    }

    private static Int128 Moment(Mass mass, Length arm) => (Int128)mass.Nanograms * arm.Nanometres;

    private static Length Mean(Int128 moment, Mass mass) => Length.FromNanometres((long)(moment / mass.Nanograms));
}
