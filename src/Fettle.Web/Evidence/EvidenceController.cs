using Fettle.Readiness.Pickups;
using Fettle.Web.Api;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Evidence;

[Route("api/v1/pickups/{id:guid}/evidence.zip")]
public sealed class EvidenceController(IDocumentStore store, EvidenceDesk desk) : ApiController
{
    /// <summary>
    /// The file of a submitted pickup: every event, the photos, a summary, and a hash chain by which any change is found.
    /// "Fettle.Web verify FILE.zip" checks it; so does anybody with SHA-256, as its README says.
    /// </summary>
    [HttpGet]
    [ProducesResponseType<Stream>(StatusCodes.Status200OK, EvidenceZip.ContentType)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Zip(Guid id, CancellationToken cancel)
    {
        Pickup? pickup;
        await using (var session = store.QuerySession())
            pickup = await session.LoadAsync<Pickup>(id, cancel);
        return pickup is not null && Caller.MaySee(pickup.Header)
            ? File(await desk.FileAsync(pickup, cancel), EvidenceZip.ContentType, $"{pickup.Header.Number} evidence.zip")
            : Answers.NotFound("pickup");
    }
}
