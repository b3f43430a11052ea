using Fettle.Engineering.Cartons;
using Fettle.Engineering.Densities;
using Fettle.Engineering.Stability;
using Fettle.Engineering.Stacking;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Rules;

/// <summary>One handling unit on its lane, with all that is computed about it once and read by every rule.</summary>
public sealed class UnitUnderCheck
{
    // Beyond anything that moves on a road; keeps sums of declared nonsense within what a mass can hold.
    private static readonly Mass Most = Mass.FromKilograms(4_000_000);

    public UnitUnderCheck(HandlingUnit unit, Lane lane, RuleSet rules, UnitSystem? typedIn = null)
    {
        TypedIn = typedIn;
        Unit = unit;
        Lane = lane;
        Rules = rules;
        Cartons = (unit.Contents as CartonContents)?.Settled;
        Measures = Measure();
        IsBetterLoose = FewLightCartonsRule.AreBetterLoose(this);
    }

    public HandlingUnit Unit { get; }

    public Lane Lane { get; }

    /// <summary>The units of the fields that its figures were typed into; null when it was not typed, or nobody knows.</summary>
    public UnitSystem? TypedIn { get; }

    public RuleSet Rules { get; }

    public Measures Measures { get; }

    public LoadShape Shape => Measures.Shape;

    /// <summary>The cartons, told the settled way, or null when the unit is made of something else.</summary>
    public CartonContents? Cartons { get; }

    /// <summary>A palletised load of cartons all alike: what layers, columns and bare deck are about.</summary>
    public bool IsPalletOfCartons => Unit is { Kind: HandlingUnitKind.Pallet, Contents: CartonContents };

    /// <summary>Cartons on a pallet, alike or mixed: what has edges for a corner board, a cap or a strap.</summary>
    public bool IsPalletOfAnyCartons => Unit is { Kind: HandlingUnitKind.Pallet, Contents: CartonContents or MixedCartonContents };

    /// <summary>Cartons or bags on a pallet: many pieces that film must hold together and to the pallet.</summary>
    public bool IsHeldByFilm => Unit is { Kind: HandlingUnitKind.Pallet, Contents: CartonContents or MixedCartonContents or BagContents };

    /// <summary>
    /// Some side of the load stands level with the deck's edge or past it. Where cartons stand on a mixed pallet is not known,
    /// so that only what goes past the deck counts there.
    /// </summary>
    public bool IsFlush => Unit.Platform is not null
        && (Shape.Layer is null && Unit.Contents is MixedCartonContents ? Shape.Overhang.Greatest > Length.Zero : Shape.Clearance.Least <= Rules.Overhang.Flush);

    /// <summary>The lane is so long, or changes trailer so often, that freight wears on the way.</summary>
    public bool IsHardLane => Lane.Miles > Rules.CornerBoards.Miles || Lane.Transfers >= Rules.CornerBoards.Transfers;

    /// <summary>
    /// A few light cartons that are told to travel without their pallet: nothing else is then said about how to build it.
    /// </summary>
    public bool IsBetterLoose { get; }

    /// <summary>The load reaches over so much of the deck, both ways, that another deck finds its footing on it.</summary>
    public bool TopSpansDeck => SpansDeck(Shape);

    /// <summary>Two like units on one another stand under the roof.</summary>
    public bool PairFits => Unit.Outer.Height * 2 <= Rules.Height.DoubleStack;

    public Finding Find(
        string code,
        Severity severity,
        string subject,
        Quantity measured,
        Quantity limit,
        Basis basis,
        FormattableString message,
        FormattableString cure,
        FormattableString? formula = null) =>
        new(
            code,
            severity,
            subject,
            measured,
            limit,
            basis,
            Phrase.Of(message),
            Phrase.Of(cure),
            formula is null ? Finding.Comparison(measured, limit) : Phrase.Of(formula),
            Rules.Identity);

    /// <summary>Where a limit comes from: what the built-in set says of it, unless this set has another figure of its own.</summary>
    public Basis BasisOf<T>(Func<RuleSet, T> limit, Basis builtIn) =>
        EqualityComparer<T>.Default.Equals(limit(Rules), limit(RuleSet.BuiltIn)) ? builtIn : Basis.CarrierRule(Rules.Identity.ToString());

    /// <summary>What is left of a carton's strength on this lane, or null when its board is not known.</summary>
    public static (Force New, DeratingFactors Left)? StrengthOf(Carton carton, StackKind stack, Length overhang, bool deckGaps, Lane lane, StrengthLimits limits)
    {
        if (carton.Board is not { } board)
            return null;
        var fresh = McKee.Simplified(board, carton.Length, carton.Width);
        var left = Derating.For(new DeratingConditions(
            limits.Days,
            limits.RelativeHumidity,
            stack == StackKind.Interlocked ? StackAlignment.Interlocked : StackAlignment.Misaligned,
            overhang,
            deckGaps,
            lane.Transfers));
        return (fresh, left);
    }

    private Measures Measure()
    {
        var shape = LoadShape.Of(Unit);
        var outer = Unit.Outer;
        Mass? computed = Unit.Contents.Weight is { } contents ? contents + (Unit.Platform?.Tare ?? Mass.Zero) : null;

        var overhang = shape.Overhang.Greatest;
        var deckGaps = Rules.Strength.DeckGaps && Unit.Platform?.Material == PlatformMaterial.Wood;
        var strength = Cartons is { } c && Unit.Kind == HandlingUnitKind.Pallet
            ? StrengthOf(c.Carton, c.Stack, overhang, deckGaps, Lane, Rules.Strength)
            : null;
        Mass? usable = null;
        Mass? above = null;
        double? safety = null;
        Mass? capacity = null;
        if (strength is { } s && Cartons is { } load)
        {
            var (holds, bears) = (s.New * s.Left.Product, BottomCarton.LoadOnBottom(load.Carton.GrossWeight, load.Tiers));
            (usable, above) = (Held(holds), Held(bears));
            if (bears > Force.Zero)
                safety = BottomCarton.Safety(holds, bears);
            // A load on top is shared by the cartons of one layer; an unfinished layer carries nothing.
            capacity = load.TopLayer > 0 ? Mass.Zero : Held(BottomCarton.Spare(holds, bears, Rules.Strength.SafetyFactor) * load.PerLayer);
        }

        var mixed = MixedFreightOn(outer, Rules.Strength.VehicleStack);
        var expected = PairFits ? Mass.Max(mixed, Unit.GrossWeight) : mixed;
        var density = Density.Of(Unit.GrossWeight, outer.Length, outer.Width, outer.Height);

        var heightOfGravity = CentreOfGravityHeight(shape);
        var baseLength = Unit.Platform?.Length ?? outer.Length;
        var baseWidth = Unit.Platform?.Width ?? outer.Width;
        return new(
            shape,
            computed,
            strength?.New.MassHeld(),
            usable,
            strength?.Left,
            above,
            safety,
            capacity,
            expected,
            CarriesLikeUnit: PairFits && capacity >= Unit.GrossWeight && overhang == Length.Zero && SpansDeck(shape) && !TopLoad.IsRuledOut(Unit),
            TippingLateral: Tipping.CriticalAcceleration(Length.Min(baseWidth, outer.Width) / 2, heightOfGravity),
            TippingForward: Tipping.CriticalAcceleration(Length.Min(baseLength, outer.Length) / 2, heightOfGravity),
            heightOfGravity,
            density,
            FreightClassScale.ThirteenTier.ClassOf(density));
    }

    /// <summary>
    /// Weight of mixed freight over the unit's footprint up to the height that vehicles are filled to: the plain weight, since
    /// strength is derated already and the test's factor would count time and damp twice.
    /// </summary>
    public Mass MixedFreightOn(Dimensions outer, Length vehicleHeight) => Held(VehicleStackingLoad.MixedFreight(
        outer.Length, outer.Width, outer.Height, Density.FromPoundsPerCubicFoot(Rules.Strength.MixedFreightPoundsPerCubicFoot), vehicleHeight, factor: 1));

    private bool SpansDeck(LoadShape shape) => Unit.Platform is not { } deck
        || (shape.LoadLength >= deck.Length * Rules.Strength.TopSpan && shape.LoadWidth >= deck.Width * Rules.Strength.TopSpan);

    private static Mass Held(Force force) => Force.Min(force, Force.WeightOf(Most)).MassHeld();

    private Length CentreOfGravityHeight(LoadShape shape)
    {
        // A machine's maker knows better than the middle of its outside, unless the figure cannot be.
        if (Unit.Contents is MachineryContents { CentreOfGravity: { } given } && given > Length.Zero && given < Unit.Outer.Height)
            return given;
        if (Unit.Platform is not { } deck || deck.Tare >= Unit.GrossWeight)
            return Unit.Outer.Height / 2;
        var load = Unit.GrossWeight - deck.Tare;
        return CentreOfGravity.Of([Part.Uniform(deck.Tare, Length.Zero, deck.Height), new Part(load, deck.Height + LoadCentre(shape))]).Height;
    }

    /// <summary>Height of the load's own centre above the platform: its middle, unless an unfinished layer sits on top.</summary>
    private Length LoadCentre(LoadShape shape)
    {
        if (Cartons is not { TopLayer: > 0 } cartons)
            return shape.LoadHeight / 2;
        var tier = shape.LoadHeight / cartons.Tiers;
        var full = (double)cartons.PerLayer * cartons.Layers;
        return ((tier * cartons.Layers / 2 * full) + (tier * (cartons.Layers + 0.5) * cartons.TopLayer)) / cartons.Count;
    }
}
