using Fettle.Engineering.Units;

namespace Fettle.Engineering.Cartons;

/// <summary>The wave of a corrugated board: single wall (A, B, C, E, F) or double wall (BC, EB).</summary>
public enum Flute
{
    /// <summary>Single wall, about 33 flutes a foot.</summary>
    A,

    /// <summary>Single wall, about 47 flutes a foot.</summary>
    B,

    /// <summary>Single wall, about 39 to 41 flutes a foot; the usual shipping carton.</summary>
    C,

    /// <summary>Single wall, about 90 to 95 flutes a foot.</summary>
    E,

    /// <summary>Single wall, about 125 flutes a foot.</summary>
    F,

    /// <summary>Double wall of a B and a C.</summary>
    BC,

    /// <summary>Double wall of an E and a B.</summary>
    EB,
}

/// <summary>Nominal figures of each flute. A maker's own data, where there are any, are better.</summary>
public static class FluteProfile
{
    /// <summary>
    /// Nominal thickness (caliper) of the board. Single wall after trade tables, which agree to a few hundredths of a
    /// millimetre (C is 5/32 in = 0.15625 in; a widely used worked example takes 0.160 in, 1.2 % more strength).
    /// Double wall from memory: BC 0.28 in (seen as 1/4 to 9/32), EB 0.18 in (the lower of 0.18 to 0.19).
    /// </summary>
    public static Length Caliper(Flute flute) => flute switch
    {
        Flute.A => Length.FromInches(3.0 / 16),
        Flute.B => Length.FromInches(1.0 / 8),
        Flute.C => Length.FromInches(5.0 / 32),
        Flute.E => Length.FromInches(1.0 / 16),
        Flute.F => Length.FromInches(1.0 / 32),
        Flute.BC => Length.FromInches(0.28),
        Flute.EB => Length.FromInches(0.18),
    };

    /// <summary>Whether the board has two waves.</summary>
    public static bool IsDoubleWall(Flute flute) => flute switch
    {
        Flute.A or Flute.B or Flute.C or Flute.E or Flute.F => false,
        Flute.BC or Flute.EB => true,
    };
}
