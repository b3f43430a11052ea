using System.Text.Json;
using System.Text.Json.Serialization;
using Fettle.Readiness;
using Fettle.Readiness.Holds;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;

namespace Fettle.Web.Demo;

/// <summary>
/// The demo as it is written in demo-data/: invented firms, people and freight. Parties name each other by name; their ids
/// follow from their names, so that loading twice makes nothing twice.
/// </summary>
public sealed record Scenario(
    IReadOnlyList<DemoCarrier> Carriers,
    IReadOnlyList<DemoShipper> Shippers,
    DemoPeople People,
    IReadOnlyList<DemoDecision> Decisions)
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        // A slip of the pen in the data is an error, not a default.
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectRequiredConstructorParameters = true,
        RespectNullableAnnotations = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };

    /// <summary>Where the data is beside the program, published or run from its source.</summary>
    public static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "demo-data");

    /// <exception cref="JsonException">The data does not have the shape that its schema says.</exception>
    public static Scenario Read(string folder) => new(
        Read<CarriersFile>(Path.Combine(folder, "carriers.json")).Carriers,
        [.. Directory.EnumerateFiles(Path.Combine(folder, "shippers"), "*.json").Order(StringComparer.Ordinal).Select(Read<DemoShipper>)],
        Read<DemoPeople>(Path.Combine(folder, "people.json")),
        Read<DecisionsFile>(Path.Combine(folder, "decisions.json")).Decisions);

    /// <summary>Rights by ids.</summary>
    /// <exception cref="InvalidOperationException">A party is named that there is not.</exception>
    public Rights RightsOf(DemoRights rights) => rights.Role switch
    {
        Role.ShipperClerk => Rights.ShipperClerk(ShipperOf(rights).Id, [.. SitesOf(rights).Select(site => ShipperOf(rights).SiteId(site.Name))]),
        Role.TerminalReviewer => Rights.TerminalReviewer(CarrierOf(rights).Id, [.. TerminalsOf(rights).Select(terminal => CarrierOf(rights).TerminalId(terminal.Name))]),
        Role.AccountManager => Rights.AccountManager(CarrierOf(rights).Id, [.. (rights.Accounts ?? []).Select(name => Named(Shippers, name, shipper => shipper.Name).Id)]),
        Role.Administrator => Rights.Administrator(rights.Carrier is null ? null : CarrierOf(rights).Id),
    };

    public DemoShipper ShipperOf(DemoRights rights) => Named(Shippers, rights.Shipper, shipper => shipper.Name);

    public DemoCarrier CarrierOf(DemoRights rights) => Named(Carriers, rights.Carrier, carrier => carrier.Name);

    /// <summary>Those named, or all of the shipper's.</summary>
    public IReadOnlyList<DemoSite> SitesOf(DemoRights rights)
    {
        var sites = ShipperOf(rights).Sites;
        return rights.Sites is null ? sites : [.. rights.Sites.Select(name => Named(sites, name, site => site.Name))];
    }

    /// <summary>Those named, or all of the carrier's.</summary>
    public IReadOnlyList<DemoTerminal> TerminalsOf(DemoRights rights)
    {
        var terminals = CarrierOf(rights).Terminals;
        return rights.Terminals is null ? terminals : [.. rights.Terminals.Select(name => Named(terminals, name, terminal => terminal.Name))];
    }

    /// <summary>The terminal that a lane names together with its carrier.</summary>
    public (DemoCarrier Carrier, DemoTerminal Terminal) TerminalOf(DemoLane lane) => Named(
        [.. Carriers.SelectMany(carrier => carrier.Terminals, (Carrier, Terminal) => (Carrier, Terminal))],
        lane.Terminal,
        pair => $"{pair.Carrier.Name}, {pair.Terminal.Name}");

    /// <summary>Who declares freight at a dock.</summary>
    public DemoPerson ClerkAt(DemoShipper shipper, string site) => People.People.First(person =>
        person.Rights.Role == Role.ShipperClerk && person.Rights.Shipper == shipper.Name && SitesOf(person.Rights).Any(own => own.Name == site));

    /// <summary>Who decides about what is held at a terminal.</summary>
    public IReadOnlyList<DemoPerson> ReviewersAt(Guid terminalId) =>
        [.. People.People.Where(person => person.Rights.Role == Role.TerminalReviewer && RightsOf(person.Rights).TerminalIds.Contains(terminalId))];

    /// <summary>What an administrator does to give a carrier its rules, all at one moment; nothing for a carrier without.</summary>
    public IReadOnlyList<RuleSetEvent> RuleSetOf(DemoCarrier carrier, DateTimeOffset at)
    {
        if (carrier.Rules is not { } own)
            return [];
        var administrators = People.People.Where(person => person.Rights.Role == Role.Administrator).ToArray();
        var by = (Array.Find(administrators, person => person.Rights.Carrier == carrier.Name) ?? administrators[0]).Actor;
        var events = new List<RuleSetEvent>();
        CarrierRules? state = null;
        Do(CarrierRules.Decide(state, new DraftRuleSet(carrier.Id, carrier.Name, OfBuiltIn: true, by, at)));
        Do(CarrierRules.Decide(state, new ChangeRuleSet(state!.Revision, own.Read(), by, at)));
        Do(CarrierRules.Decide(state, new PublishRuleSet(state!.Revision, at, own.Note, by, at)));
        return events;

        void Do(Decision<RuleSetEvent> decision)
        {
            if (decision.Refusal is { } refusal)
                throw new InvalidOperationException($"The demo's rules of {carrier.Name}: {refusal.Message}");
            events.AddRange(decision.Events);
            state = decision.Events.Aggregate(state, CarrierRules.Evolve);
        }
    }

    private static T Named<T>(IReadOnlyList<T> all, string? name, Func<T, string> nameOf)
    {
        foreach (var one in all)
        {
            if (nameOf(one) == name)
                return one;
        }

        throw new InvalidOperationException($"The demo's data names \"{name}\", which it does not have.");
    }

    private static T Read<T>(string file)
    {
        using var json = File.OpenRead(file);
        return JsonSerializer.Deserialize<T>(json, Json) ?? throw new JsonException($"{file} is empty.");
    }

    private sealed record CarriersFile(IReadOnlyList<DemoCarrier> Carriers) : DataFile;

    private sealed record DecisionsFile(IReadOnlyList<DemoDecision> Decisions) : DataFile;
}

/// <summary>A file of demo-data/ names its schema, for editors.</summary>
public abstract record DataFile
{
    [JsonPropertyName("$schema")]
    public string? Schema { get; init; }
}

/// <param name="Rules">Its own rules, published before the year begins; null for a carrier that judges by the built-in ones.</param>
public sealed record DemoCarrier(string Name, IReadOnlyList<DemoTerminal> Terminals, DemoRules? Rules = null)
{
    [JsonIgnore]
    public Guid Id => StableId.From("demo", "carrier", Name);

    public Guid TerminalId(string name) => StableId.From("demo", "terminal", Name, name);

    public Carrier Party() => new()
    {
        Id = Id,
        Name = Name,
        Terminals = [.. Terminals.Select(terminal => new Terminal(TerminalId(terminal.Name), terminal.Name, terminal.Address, terminal.Email, terminal.TimeZone))],
    };
}

/// <summary>What a carrier has made its own.</summary>
/// <param name="Note">Why.</param>
/// <param name="Limits">Text by the limit's path, as typed on the page.</param>
public sealed record DemoRules(string Note, IReadOnlyDictionary<string, string> Limits)
{
    /// <exception cref="InvalidOperationException">A limit is not known, or cannot be set so.</exception>
    public RuleSet Read() => Limits.Aggregate(RuleSet.BuiltIn, (rules, pair) =>
        Limit.Find(pair.Key) is { } limit && LimitText.Read(limit, pair.Value, limit.Of(rules)) is { Value: { } value, Error: null }
            ? limit.With(rules, value)
            : throw new InvalidOperationException($"The demo's data sets {pair.Key} to \"{pair.Value}\", which cannot be."));
}

public sealed record DemoTerminal(string Name, string Address, string Email, string TimeZone);

/// <param name="About">What its freight teaches.</param>
/// <param name="Builders">Who builds its freight, the newest first.</param>
/// <param name="OpenHolds">Pickups of the last day, each with one line that is held and not decided yet: one a lane, in their order.</param>
/// <param name="KeepsCatalogue">Its builds that pass, with their cartons and pallets, are in its catalogue.</param>
/// <param name="CompanyPrefix">Under 952, GS1's prefix for demonstrations and examples; null for a shipper that has none.</param>
/// <param name="Newest">Whether a pickup of the last minutes, whose mail is really sent, is ready or held; null for none.</param>
public sealed record DemoShipper(
    string Name,
    string About,
    string Email,
    IReadOnlyList<DemoSite> Sites,
    IReadOnlyList<string> Builders,
    double PickupsPerWeek,
    int OpenHolds,
    DemoStory Story,
    IReadOnlyList<DemoLane> Lanes,
    IReadOnlyList<DemoBuild> Builds,
    NewestPickup? Newest = null,
    bool KeepsCatalogue = false,
    string? CompanyPrefix = null) : DataFile
{
    [JsonIgnore]
    public Guid Id => StableId.From("demo", "shipper", Name);

    public Guid SiteId(string name) => StableId.From("demo", "site", Name, name);

    public Shipper Party() => new()
    {
        Id = Id,
        Name = Name,
        Email = Email,
        CompanyPrefix = CompanyPrefix,
        Sites = [.. Sites.Select(site => new Site(SiteId(site.Name), site.Name, site.Address, site.TimeZone))],
    };
}

public enum NewestPickup
{
    Ready,
    Held,
}

public sealed record DemoSite(string Name, string Address, string TimeZone);

/// <summary>What the year comes to: two bounds of a share, both included.</summary>
/// <param name="ShareHeld">Of handling units.</param>
/// <param name="StackWell">Of lines declared stackable; null where they are too few to say.</param>
public sealed record DemoStory(IReadOnlyList<double> ShareHeld, IReadOnlyList<double>? StackWell = null);

/// <param name="From">Name of the site.</param>
/// <param name="Terminal">Carrier and terminal: "Larkspur Motor Freight, Millbrook".</param>
/// <param name="Weight">How often, against the other lanes.</param>
/// <param name="Liftgate">The consignee is served with a liftgate.</param>
/// <param name="NoDock">The consignee has no dock.</param>
public sealed record DemoLane(
    string From,
    string Terminal,
    string Destination,
    double Miles,
    int Transfers,
    string Equipment,
    bool DriverOnDock,
    double Weight,
    bool Liftgate = false,
    bool NoDock = false)
{
    /// <summary>As the pickup's form has it.</summary>
    [JsonIgnore]
    public LaneForm Form => new() { Miles = Writing.Text(Miles), Transfers = Writing.Text(Transfers), Liftgate = Liftgate, NoDock = NoDock };
}

/// <summary>A way in which a shipper builds a line.</summary>
/// <param name="Quantity">Fewest and most identical units.</param>
/// <param name="Stops">Codes of findings that stop it on every lane; null when it is never held.</param>
/// <param name="ExceptionRequest">Why the clerk asks the carrier to take it all the same.</param>
/// <param name="Unit">As typed; reference and quantity are filled in.</param>
public sealed record DemoBuild(
    string Name,
    double Weight,
    IReadOnlyList<int> Quantity,
    UnitForm Unit,
    IReadOnlyList<string>? Stops = null,
    string? ExceptionRequest = null)
{
    [JsonIgnore]
    public bool IsHeld => Stops is not null;
}

/// <param name="Password">Of every demo sign-in; no secret.</param>
/// <param name="ApiKeys">At most one for each role.</param>
public sealed record DemoPeople(string Password, IReadOnlyList<DemoPerson> People, IReadOnlyList<DemoApiKey> ApiKeys) : DataFile;

public sealed record DemoPerson(string Name, string UserName, DemoRights Rights)
{
    [JsonIgnore]
    public Guid Id => StableId.From("demo", "person", UserName);

    [JsonIgnore]
    public Readiness.Actor Actor => new(Id, Name);
}

public sealed record DemoApiKey(string Name, DemoRights Rights);

/// <summary>Rights by names. Sites or terminals that are not named: all of them.</summary>
public sealed record DemoRights(
    Role Role,
    string? Shipper = null,
    IReadOnlyList<string>? Sites = null,
    string? Carrier = null,
    IReadOnlyList<string>? Terminals = null,
    IReadOnlyList<string>? Accounts = null);

/// <summary>What a reviewer decides, and why.</summary>
/// <param name="Stop">Code of the finding that stopped the freight; null for those that have no decision of their own.</param>
/// <param name="Weight">How often, against the others of the same stop.</param>
public sealed record DemoDecision(HoldDecision Decision, double Weight, string Reason, string? Stop = null);
