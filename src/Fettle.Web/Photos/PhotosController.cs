using Fettle.Web.Identity;
using Fettle.Web.Security;
using Marten;
using Microsoft.AspNetCore.Mvc;
using NetEscapades.AspNetCore.SecurityHeaders;

namespace Fettle.Web.Photos;

/// <summary>
/// Pictures for whoever is signed in and may see the freight; for everybody else there is nothing here. With an API key they
/// are had from <see cref="PhotoFilesController"/>. They never change, and are sent as a picture that nothing can run in.
/// </summary>
[Route("photos/{id:guid}")]
public sealed class PhotosController(IDocumentStore store) : Controller
{
    [HttpGet("")]
    [SecurityHeadersPolicy(HeaderPolicies.Photo)]
    public Task<IActionResult> Show(Guid id, CancellationToken cancel) => AnswerAsync(id, thumbnail: false, cancel);

    [HttpGet("thumbnail")]
    [SecurityHeadersPolicy(HeaderPolicies.Photo)]
    public Task<IActionResult> Thumbnail(Guid id, CancellationToken cancel) => AnswerAsync(id, thumbnail: true, cancel);

    private async Task<IActionResult> AnswerAsync(Guid id, bool thumbnail, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Photo>(id, cancel) is not { } photo || !Caller.Of(User).MaySee(photo.Pickup))
            return NotFound();
        if (await session.BytesAsync(id, thumbnail, cancel) is not { } bytes)
            return NotFound();
        Response.Headers.CacheControl = "private, max-age=86400, immutable";
        // The name is ours: what a file was called on somebody's device is nobody's business.
        Response.Headers.ContentDisposition = $"inline; filename=\"{photo.Pickup.Number}-{id:N}{(thumbnail ? "-small" : "")}.jpg\"";
        return File(bytes, Photo.Jpeg);
    }
}
