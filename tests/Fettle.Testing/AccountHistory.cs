using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Rules;
using Marten;

namespace Fettle.Testing;

/// <summary>
/// Two years of freight of many shippers from a fixed start, as the events that people would have caused. Invented: it
/// loads scorecards, and proves nothing about freight.
/// </summary>
public sealed class AccountHistory(int start, IReadOnlyList<Guid> carriers, IReadOnlyList<Guid> shippers, DateTimeOffset until)
{
    private static readonly Actor Clerk = new(new Guid(1, 1, 1, new byte[8]), "Robin Field");
    private static readonly Actor Reviewer = new(new Guid(1, 1, 2, new byte[8]), "Sam Marsh");
    private static readonly string[] Builders = ["Robin Field", "Ines Moor", "Tom Ashdown", "Lena Quay", ""];
    private static readonly string[] Places = ["Saltgrass", "Copper Fork", "Oakmere", "Fenwick Falls", "Pecan Bend", "Dry Sandy", "Haddon", "Gull Harbor", "Tallgrass", "Sutter Plain"];
    private static readonly double[] Miles = [90, 240, 420, 610, 880, 1400];

    private static readonly Platform Deck = new(
        Length.FromInches(48), Length.FromInches(40), Length.FromInches(5.5), Mass.FromPounds(40), PlatformMaterial.Wood, Mass.FromPounds(2500));

    private static readonly (HandlingUnit Unit, UnitResult[] Judged)[] Builds = [.. Units().Select(unit => (unit, Miles.Select(miles => ReadinessCheck.Run(unit, LaneOf(miles), RuleSet.BuiltIn)).ToArray()))];

    private readonly Random random = new(start);

    // Of its own, so that freight and its fate are the same with claims as without.
    private readonly Random claims = new(start + 1);

    /// <summary>How a line is built.</summary>
    public enum BuiltAs
    {
        /// <summary>Declared stackable, and carries its like.</summary>
        Sound,
        NotStackable,
        ThinFilm,
        Overhang,
    }

    /// <summary>One pickup, and all that became of it.</summary>
    public sealed record Told(PickupSubmitted Submitted, IReadOnlyList<(HoldPlaced Placed, HoldDecided? Decided)> Holds, OutcomeRecorded? Outcome)
    {
        public IReadOnlyList<PickupEvent> Claims { get; init; } = [];

        public int Units => Submitted.Units.Sum(unit => unit.Quantity);

        public int Lines => Submitted.Units.Count;

        public int Events => 1 + Holds.Count + Holds.Count(hold => hold.Decided is not null) + (Outcome is null ? 0 : 1) + Claims.Count;
    }

    /// <summary>Pickups until they have so many handling units.</summary>
    public IEnumerable<Told> Pickups(int units)
    {
        for (var made = 0; made < units;)
        {
            var told = Next();
            made += told.Units;
            yield return told;
        }
    }

    /// <summary>Appends many pickups in one transaction.</summary>
    public static async Task AppendAsync(IDocumentStore store, IEnumerable<Told> pickups, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        foreach (var told in pickups)
        {
            session.Events.StartStream<Pickup>(told.Submitted.PickupId, told.Outcome is null ? [told.Submitted] : [told.Submitted, told.Outcome, .. told.Claims]);
            foreach (var (placed, decided) in told.Holds)
                session.Events.StartStream<Hold>(placed.HoldId, decided is null ? [placed] : [placed, decided]);
        }

        await session.SaveChangesAsync(cancel);
    }

    /// <summary>A pickup of lines that all are built alike, of so many units each.</summary>
    public static Told One(Guid carrier, Guid shipper, DateTimeOffset at, BuiltAs built, params IReadOnlyList<int> quantities)
    {
        var unit = Builds[(int)built].Unit with { BuiltBy = "Robin Field" };
        var declaration = new Declaration(LaneOf(420), DriverOnDock: true, UnitSystem.Imperial, [.. quantities.Select((quantity, index) => unit with { Reference = $"L{index + 1}", Quantity = quantity })]);
        var header = new PickupHeader("P-TESTED", shipper, SiteOf(shipper, 0), carrier, TerminalOf(carrier, 0), "Harbour Stores, Saltgrass", new(at.AddHours(2), at.AddHours(4), "America/Chicago"), Equipment.Van53);
        var submitted = (PickupSubmitted)Pickup.Decide(null, new SubmitPickup(Guid.CreateVersion7(), header, declaration, UnitNumber.For(declaration, _ => null), RuleSet.BuiltIn, null, Clerk, at)).Events[0];
        return new(submitted, [], null);
    }

    private Told Next()
    {
        var shipper = random.Next(shippers.Count);
        var carrier = carriers[random.Next(carriers.Count)];
        var at = until.AddMinutes(-random.Next(1, 700 * 24 * 60));
        var band = random.Next(Miles.Length);
        var header = new PickupHeader(
            $"P-{random.Next():X6}"[..8],
            shippers[shipper],
            SiteOf(shippers[shipper], random.Next(1 + (shipper % 3))),
            carrier,
            TerminalOf(carrier, random.Next(3)),
            $"{Places[(shipper + random.Next(4)) % Places.Length]} Stores, {Places[random.Next(4)]}",
            new(at.AddHours(2), at.AddHours(4), "America/Chicago"),
            Equipment.Van53);
        // Each shipper has a few builds of its own, and one of them is a bad habit.
        var lines = Enumerable.Range(0, random.Next(1, 7)).Select(index =>
        {
            var build = Builds[((shipper * 3) + random.Next(4)) % Builds.Length];
            return (Unit: build.Unit with { Reference = $"L{index + 1}", Quantity = random.Next(1, 27), BuiltBy = Builders[random.Next(Builders.Length)] is { Length: > 0 } builder ? builder : null }, Judged: build.Judged[band]);
        }).ToArray();
        var declaration = new Declaration(LaneOf(Miles[band]), DriverOnDock: true, UnitSystem.Imperial, [.. lines.Select(line => line.Unit)]);
        var submitted = new PickupSubmitted(
            Id(),
            header,
            declaration,
            UnitNumber.For(declaration, _ => null),
            RuleSet.BuiltIn.Identity,
            [.. lines.Select(line => UnitJudgement.Of(line.Judged with { Reference = line.Unit.Reference, Quantity = line.Unit.Quantity }))],
            [],
            null,
            Clerk,
            at);
        var pickup = Pickup.Evolve(null, submitted)!;
        var holds = Hold.Place(pickup, _ => Id(), RuleSet.BuiltIn.Hold, at.AddMinutes(1))
            .Select(placed => (placed, random.Next(20) == 0 ? null : new HoldDecided(placed.HoldId, Id(), (HoldDecision)random.Next(5), "As seen on the floor.", Reviewer, at.AddMinutes(random.Next(20, 900)))))
            .ToArray();
        var outcome = random.Next(10) == 0 ? null : Outcome(submitted, at.AddDays(random.Next(1, 6)));
        return new(submitted, holds, outcome) { Claims = outcome is { IsClean: false } ? ClaimFor(outcome) : [] };
    }

    private IReadOnlyList<PickupEvent> ClaimFor(OutcomeRecorded outcome)
    {
        var (claim, at, day) = (Id(claims), outcome.At.AddDays(20), outcome.DeliveredOn.AddDays(20));
        ClaimedLine[] lines = [.. outcome.Units.Where(unit => unit.Kind != OutcomeKind.Clean).Select(unit => new ClaimedLine(unit.Reference, unit.Count, Money.Dollars(unit.Count * claims.Next(100, 900))))];
        var filed = new ClaimFiled(outcome.PickupId, claim, $"C-{claims.Next():X6}"[..8], outcome.OutcomeId, day, lines, "Damaged on the way.", outcome.Deadlines.ClaimBy, day.AddDays(30), day.AddDays(120), Clerk, at);
        var answer = (ClaimAnswer)claims.Next(4);
        var sums = answer is ClaimAnswer.Offered or ClaimAnswer.Paid ? lines : [.. lines.Select(line => line with { Amount = Money.Dollars(0) })];
        return claims.Next(10) switch
        {
            0 => [],
            1 => [filed],
            2 => [filed, new ClaimWithdrawn(outcome.PickupId, claim, lines, "Found.", Clerk, at.AddDays(3))],
            _ => [filed, new ClaimAnswered(outcome.PickupId, claim, Id(claims), answer, day.AddDays(40), sums, "As seen.", answer == ClaimAnswer.Disallowed ? day.AddDays(40).AddYears(2) : null, Reviewer, at.AddDays(40))],
        };
    }

    private OutcomeRecorded Outcome(PickupSubmitted submitted, DateTimeOffset at) => new(
        submitted.PickupId,
        Id(),
        DateOnly.FromDateTime(at.UtcDateTime),
        [.. submitted.Units.SelectMany(unit =>
        {
            // Overhang and thin film break things here; nothing else does.
            var risk = .02 + unit.Findings.Sum(finding => finding.Code is FindingCodes.Overhang or FindingCodes.WrapTurns ? .1 : 0);
            bool? carried = random.Next(3) switch { 0 => true, 1 => false, _ => null };
            return random.NextDouble() >= risk
                ? (UnitOutcome[])[new(unit.Reference, unit.Quantity, random.Next(200) == 0 ? OutcomeKind.Short : OutcomeKind.Clean, CarriedFreight: carried)]
                : [new(unit.Reference, 1, OutcomeKind.Damaged, DamagePlace.Side, DamageManner.Crushed, CarriedFreight: carried), .. unit.Quantity > 1 ? (UnitOutcome[])[new(unit.Reference, unit.Quantity - 1, OutcomeKind.Clean)] : []];
        })],
        new(DateOnly.FromDateTime(at.UtcDateTime).AddDays(5), DateOnly.FromDateTime(at.UtcDateTime).AddMonths(9)),
        null,
        null,
        Clerk,
        at);

    private Guid Id() => Id(random);

    private static Guid Id(Random random)
    {
        var bytes = new byte[16];
        random.NextBytes(bytes);
        return new(bytes);
    }

    public static Guid SiteOf(Guid shipper, int number) => Of(shipper, (byte)(100 + number));

    public static Guid TerminalOf(Guid carrier, int number) => Of(carrier, (byte)(200 + number));

    private static Guid Of(Guid party, byte number)
    {
        var bytes = party.ToByteArray();
        bytes[0] ^= number;
        return new(bytes);
    }

    private static Lane LaneOf(double miles) => new(miles, miles > 500 ? 2 : 0, CrossBorder: false);

    private static IEnumerable<HandlingUnit> Units()
    {
        foreach (var (carton, perLayer, layers) in new[] { (Carton(11, 9, 10, 20), 16, 4), (Carton(16, 12, 12, 22), 10, 4), (Carton(12, 10, 8, 15), 16, 5) })
        {
            var sound = Pallet(carton, perLayer, layers);
            yield return sound;
            yield return sound with { Stackable = false };
            yield return sound with { Protection = sound.Protection with { WrapTurns = 1 } };
            yield return sound with { Outer = sound.Outer with { Length = Length.FromInches(51) } };
            yield return sound with { Fragile = Fragility.Glass, Stackable = false, Partitions = true };
            yield return sound with { Outer = sound.Outer with { Length = Length.FromInches(51) }, Protection = sound.Protection with { WrapTurns = 1 } };
        }
    }

    private static Carton Carton(double length, double width, double height, double weight) => new(
        Length.FromInches(length), Length.FromInches(width), Length.FromInches(height), Mass.FromPounds(weight), new Board(Flute.C, 44));

    private static HandlingUnit Pallet(Carton carton, int perLayer, int layers)
    {
        var contents = new CartonContents(carton, perLayer, layers, StackKind.Column);
        return new()
        {
            Reference = "L1",
            Quantity = 1,
            Kind = HandlingUnitKind.Pallet,
            Platform = Deck,
            Outer = new(Length.FromInches(48), Length.FromInches(40), Deck.Height + (carton.Height * layers)),
            GrossWeight = contents.Weight!.Value + Deck.Tare,
            Contents = contents,
            Stackable = true,
            Protection = Protection.None with { WrapTurns = 3, WrapOverPlatform = true, CornerBoards = CornerBoards.ToPlatform, TopCap = true },
        };
    }
}
