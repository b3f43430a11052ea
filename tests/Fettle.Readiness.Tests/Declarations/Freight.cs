using System.Globalization;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Tests.Declarations;

/// <summary>Units with names, and short ways to change one thing about them.</summary>
internal static class Freight
{
    /// <summary>48 × 40 in, of wood.</summary>
    public static readonly Platform Deck = new(
        Length.FromInches(48), Length.FromInches(40), Length.FromInches(5.5), Mass.FromPounds(40), PlatformMaterial.Wood, Mass.FromPounds(2500));

    /// <summary>16 to a layer leave exactly 2 in of deck bare on all four sides.</summary>
    public static readonly Carton Small = Carton(11, 9, 10, 20, 44);

    public static readonly Lane Near = new(120, 0, CrossBorder: false);

    public static readonly Lane Far = new(820, 1, CrossBorder: false);

    public static readonly Protection Wrapped = Protection.None with { WrapTurns = 3, WrapOverPlatform = true };

    public static readonly Protection Boarded = Wrapped with { CornerBoards = CornerBoards.ToPlatform };

    /// <summary>Nothing is wrong with it, and it carries its like: four layers of sixteen small cartons.</summary>
    public static readonly HandlingUnit Sound = Pallet(new CartonContents(Small, 16, 4, StackKind.Column)) with { Stackable = true };

    /// <summary>One thing, bolted down, 48 × 40 × 40 in and 900 lb.</summary>
    public static readonly HandlingUnit Machine = Sound with
    {
        Contents = new PieceContents("lathe, bolted down"),
        Outer = Outer(48, 40, 40),
        GrossWeight = Mass.FromPounds(900),
        Stackable = false,
        Protection = Protection.None,
    };

    /// <summary>Other contents on the wooden deck, wrapped, as heavy as they add up to, or 900 lb.</summary>
    public static HandlingUnit Loaded(Contents contents, double height = 40) => Machine with
    {
        Contents = contents,
        Outer = Outer(48, 40, height),
        GrossWeight = contents.Weight is { } weight ? weight + Deck.Tare : Mass.FromPounds(900),
        Protection = Wrapped with { TopCap = true, SlipSheets = true },
    };

    /// <summary>The same without a platform.</summary>
    public static HandlingUnit Bare(Contents contents, HandlingUnitKind kind = HandlingUnitKind.Piece) => Loaded(contents) with
    {
        Kind = kind,
        Platform = null,
        GrossWeight = contents.Weight ?? Mass.FromPounds(400),
        Protection = Protection.None,
    };

    /// <summary>A carton that travels by itself.</summary>
    public static readonly HandlingUnit LooseCarton = Loose(Carton(16, 12, 10, 20, 44));

    public static Carton Carton(double length, double width, double height, double pounds, double? edgeCrush, Flute flute = Flute.C) => new(
        Length.FromInches(length), Length.FromInches(width), Length.FromInches(height), Mass.FromPounds(pounds), edgeCrush is { } ect ? new Board(flute, ect) : null);

    public static Dimensions Outer(double length, double width, double height) => new(Length.FromInches(length), Length.FromInches(width), Length.FromInches(height));

    /// <summary>A wrapped pallet whose height and weight add up; its load stays on the deck.</summary>
    public static HandlingUnit Pallet(CartonContents contents, Platform? deck = null)
    {
        deck ??= Deck;
        return new()
        {
            Reference = "A1",
            Quantity = 1,
            Kind = HandlingUnitKind.Pallet,
            Platform = deck,
            Outer = new(deck.Length, deck.Width, deck.Height + (contents.Carton.Height * contents.Tiers)),
            GrossWeight = deck.Tare + (contents.Carton.GrossWeight * contents.Count),
            Contents = contents,
            Protection = Wrapped,
        };
    }

    public static HandlingUnit Loose(Carton carton) => new()
    {
        Reference = "L1",
        Quantity = 1,
        Kind = HandlingUnitKind.LooseCarton,
        Outer = new(carton.Length, carton.Width, carton.Height),
        GrossWeight = carton.GrossWeight,
        Contents = new CartonContents(carton, 1, 1, StackKind.Column),
    };

    /// <summary>The load reaches to this outside length and width.</summary>
    public static HandlingUnit Reaching(this HandlingUnit unit, Length? length = null, Length? width = null) =>
        unit with { Outer = unit.Outer with { Length = length ?? unit.Outer.Length, Width = width ?? unit.Outer.Width } };

    public static CartonContents Cartons(this HandlingUnit unit) => (CartonContents)unit.Contents;

    public static UnitResult Check(this HandlingUnit unit, Lane? lane = null, RuleSet? rules = null, UnitSystem? typedIn = null) =>
        ReadinessCheck.Run(unit, lane ?? Near, rules ?? RuleSet.BuiltIn, typedIn);

    public static string[] Codes(this UnitResult result) => [.. result.Findings.Select(finding => finding.Code)];

    public static bool Finds(this HandlingUnit unit, string code, Lane? lane = null, RuleSet? rules = null) =>
        unit.Check(lane, rules).Findings.Any(finding => finding.Code == code);

    /// <summary>As a person reads it, with plain spaces.</summary>
    public static string Said(this Phrase phrase, UnitSystem units = UnitSystem.Imperial) => phrase.Say(units).Replace('\u00a0', ' ');

    /// <summary>The one finding with this code.</summary>
    public static Finding Finding(this HandlingUnit unit, string code, Lane? lane = null, RuleSet? rules = null) =>
        Assert.Single(unit.Check(lane, rules).Findings, finding => finding.Code == code);
}

/// <summary>Figures as a clerk types them, read back as the portal reads them: the same thing in inches and in centimetres.</summary>
internal static class Typed
{
    public static readonly UnitSystem[] Both = [UnitSystem.Imperial, UnitSystem.Metric];

    public static Length Long(double inches, UnitSystem units)
    {
        var text = Text(units == UnitSystem.Metric ? (decimal)inches * 2.54m : (decimal)inches);
        Assert.True(MeasureText.TryLength(text, units, out var length), text);
        return length;
    }

    public static Mass Heavy(double pounds, UnitSystem units)
    {
        var text = Text(units == UnitSystem.Metric ? (decimal)pounds * 0.45359237m : (decimal)pounds);
        Assert.True(MeasureText.TryMass(text, units, out var mass), text);
        return mass;
    }

    private static string Text(decimal number) => number.ToString("0.############", CultureInfo.InvariantCulture);
}

/// <summary>A carrier's own rules: the built-in ones with another name and version, for tests that change a figure.</summary>
internal static class Tariff
{
    public static readonly RuleSetVersion Seventh = new("Tariff 100", 7);

    public static RuleSet With(Func<RuleSet, RuleSet> change) => change(RuleSet.BuiltIn) with { Identity = Seventh };

    /// <summary>What every finding of another rule set owes: the version that judged, and a carrier's basis for a carrier's figure.</summary>
    public static void IsNamedBy(Finding finding)
    {
        Assert.Equal(Seventh, finding.RuleSet);
        Assert.Equal(new Basis(BasisKind.CarrierRule, "Tariff 100, version 7"), finding.Basis);
    }
}
