using Fettle.Engineering.Units;

namespace Fettle.Engineering.Axles;

/// <summary>
/// A tractor and semitrailer as a pair of levers: the cargo rests on kingpin and trailer tandem, the kingpin's share on steer
/// and drive axles. The same statics as the published rules of the ROADEF 2022 challenge. See docs/engineering/axles.md.
/// </summary>
/// <param name="SteerEmpty">Steering axle of the tractor alone, S0.</param>
/// <param name="DriveEmpty">Drive tandem of the tractor alone, D0.</param>
/// <param name="KingpinEmpty">What the empty trailer puts on the fifth wheel.</param>
/// <param name="TrailerEmpty">Trailer tandem of the empty trailer, R0.</param>
/// <param name="Kingpin">Kingpin behind the trailer's nose, x_k.</param>
/// <param name="Tandem">Centre of the trailer tandem behind the nose, x_t, beyond the kingpin.</param>
/// <param name="Wheelbase">Steering axle to the centre of the drive tandem, b, above zero.</param>
/// <param name="FifthWheelAhead">Fifth wheel ahead of the centre of the drive tandem, a.</param>
public sealed record TractorTrailer(
    Mass SteerEmpty,
    Mass DriveEmpty,
    Mass KingpinEmpty,
    Mass TrailerEmpty,
    Length Kingpin,
    Length Tandem,
    Length Wheelbase,
    Length FifthWheelAhead)
{
    /// <summary>
    /// An illustration, not a vehicle: empty weights and geometry from memory, tandem so that the rearmost axle is 40 ft
    /// behind the kingpin (California's limit) with a spread of 49 in. Weigh and measure the real one.
    /// </summary>
    public static readonly TractorTrailer Illustration = new(
        Mass.FromPounds(10_500),
        Mass.FromPounds(7_500),
        Mass.FromPounds(4_400),
        Mass.FromPounds(9_600),
        Length.FromInches(36),
        Length.FromInches(491.5),
        Length.FromInches(230),
        Length.FromInches(12));

    /// <summary>Kingpin to the centre of the trailer tandem.</summary>
    public Length KingpinToTandem => Tandem - Kingpin;

    /// <summary>The vehicle with its tandem slid to another place.</summary>
    public TractorTrailer WithTandemAt(Length kingpinToTandem) => this with { Tandem = Kingpin + kingpinToTandem };

    /// <summary>
    /// What the axles carry with a cargo: tandem T = W · (x_g − x_k) / (x_t − x_k), kingpin W − T and the empty trailer's share
    /// F, steer S0 + F · a / b, drive D0 + F · (1 − a / b), trailer R0 + T.
    /// </summary>
    /// <param name="cargo">Mass of the cargo W, zero or more.</param>
    /// <param name="centre">Its centre of gravity behind the trailer's nose, x_g.</param>
    /// <exception cref="ArgumentOutOfRangeException">The tandem is not behind the kingpin, or the wheelbase is not above zero.</exception>
    public AxleLoads Carrying(Mass cargo, Length centre)
    {
        Require.NotNegative(cargo.Kilograms, nameof(cargo));
        Require.Positive(KingpinToTandem.Metres, nameof(Tandem));
        Require.Positive(Wheelbase.Metres, nameof(Wheelbase));
        var onTandem = cargo * ((centre - Kingpin) / KingpinToTandem);
        var onFifthWheel = FifthWheel(cargo, onTandem);
        var forward = onFifthWheel * (FifthWheelAhead / Wheelbase);
        return new AxleLoads(SteerEmpty + forward, DriveEmpty + (onFifthWheel - forward), TrailerEmpty + onTandem);
    }

    /// <summary>What rests on the fifth wheel with a cargo, the empty trailer's share included (F).</summary>
    /// <inheritdoc cref="Carrying" path="/param|/exception"/>
    public Mass OnFifthWheel(Mass cargo, Length centre)
    {
        Require.Positive(KingpinToTandem.Metres, nameof(Tandem));
        return FifthWheel(cargo, cargo * ((centre - Kingpin) / KingpinToTandem));
    }

    /// <summary>
    /// The shortest distance from kingpin to tandem centre at which the trailer tandem keeps to a limit: W · (x_g − x_k) over
    /// what the limit leaves. State law may not allow it (California 40 ft to the rearmost axle, Indiana 40 ft 6 in,
    /// Wisconsin 41 ft to the tandem's centre). Null when the empty trailer is already past the limit.
    /// </summary>
    /// <param name="cargo">Mass of the cargo.</param>
    /// <param name="centre">Its centre of gravity behind the nose.</param>
    /// <param name="tandemLimit">The most the trailer tandem may carry.</param>
    public Length? LeastKingpinToTandem(Mass cargo, Length centre, Mass tandemLimit)
    {
        var room = tandemLimit - TrailerEmpty;
        return room <= Mass.Zero ? null : Length.Max((centre - Kingpin) * (cargo / room), Length.Zero);
    }

    /// <summary>Where the weight of several pieces acts, measured like them from the trailer's nose.</summary>
    /// <exception cref="ArgumentException">The pieces have no mass together.</exception>
    public static Length CentreOf(IEnumerable<(Mass Mass, Length FromNose)> pieces) =>
        Stability.CentreOfGravity.Of(pieces.Select(p => new Stability.Part(p.Mass, Length.Zero, Along: p.FromNose))).Along;

    private Mass FifthWheel(Mass cargo, Mass onTandem) => KingpinEmpty + (cargo - onTandem);
}
