using Fettle.Readiness.Pickups;
using Fettle.Web.Evidence;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Shipper.Evidence;

/// <summary>The file of a submitted pickup, for all who may see the pickup.</summary>
[Route("pickups/{id:guid}/evidence.zip")]
public sealed class EvidenceController(IDocumentStore store, EvidenceDesk desk) : Controller
{
    [HttpGet("")]
    public async Task<IActionResult> Zip(Guid id, CancellationToken cancel)
    {
        Pickup? pickup;
        await using (var session = store.QuerySession())
            pickup = await session.LoadAsync<Pickup>(id, cancel);
        return pickup is not null && Caller.Of(User).MaySee(pickup.Header)
            ? File(await desk.FileAsync(pickup, cancel), EvidenceZip.ContentType, $"{pickup.Header.Number} evidence.zip")
            : NotFound();
    }
}
