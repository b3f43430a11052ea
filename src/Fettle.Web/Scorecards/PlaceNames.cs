using Fettle.Readiness.Scorecards;
using Fettle.Web.Parties;
using Marten;

namespace Fettle.Web.Scorecards;

/// <summary>Sites and terminals by id, for showing them by name.</summary>
public sealed record PlaceNames(IReadOnlyDictionary<Guid, string> Names)
{
    public string this[Guid id] => Names.GetValueOrDefault(id, "–");

    /// <summary>"Millbrook → Harbor Lamp Gifts, Oakmere, PA".</summary>
    public string Of(Lane lane) => $"{this[lane.TerminalId]} → {lane.Destination}";

    public static async Task<PlaceNames> OfAsync(IQuerySession session, IReadOnlyList<Shipper> shippers, CancellationToken cancel)
    {
        var carriers = await session.Query<Carrier>().ToListAsync(cancel);
        return new(shippers.SelectMany(shipper => shipper.Sites.Select(site => (site.Id, site.Name)))
            .Concat(carriers.SelectMany(carrier => carrier.Terminals.Select(terminal => (terminal.Id, terminal.Name))))
            .GroupBy(place => place.Id)
            .ToDictionary(place => place.Key, place => place.First().Name));
    }
}
