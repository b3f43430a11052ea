using Fettle.Web.Parties;
using Fettle.Web.Tests.Identity;

namespace Fettle.Web.Tests.Admin;

/// <summary>A front door, and two shippers and two carriers, all invented.</summary>
public sealed class Trade : IAsyncLifetime
{
    private const string Zone = "America/Chicago";

    public FrontDoor Door { get; } = new();

    public Shipper Glassware { get; } = Shipper("Bramblewick Glassware", "Mill dock", "North dock");

    public Shipper Castings { get; } = Shipper("Ironmoor Castings", "Foundry yard");

    public Carrier Larkspur { get; } = Carrier("Larkspur Motor Freight", "Millbrook", "Saltgrass");

    public Carrier Heronway { get; } = Carrier("Heronway Freight", "Heron Reach");

    public async ValueTask InitializeAsync()
    {
        await Door.InitializeAsync();
        await using var session = Door.Store.LightweightSession();
        session.Store(Glassware, Castings);
        session.Store(Larkspur, Heronway);
        await session.SaveChangesAsync();
    }

    public ValueTask DisposeAsync() => Door.DisposeAsync();

    private static Shipper Shipper(string name, params string[] docks) => new()
    {
        Id = Guid.CreateVersion7(),
        Name = name,
        Email = "dock@fettle.example",
        Sites = [.. docks.Select(dock => new Site(Guid.CreateVersion7(), dock, "1 Dock Road", Zone))],
    };

    private static Carrier Carrier(string name, params string[] terminals) => new()
    {
        Id = Guid.CreateVersion7(),
        Name = name,
        Terminals = [.. terminals.Select(terminal => new Terminal(Guid.CreateVersion7(), terminal, "2 Terminal Road", "terminal@fettle.example", Zone))],
    };
}
