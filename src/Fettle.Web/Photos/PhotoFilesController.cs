using Fettle.Web.Api;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;

namespace Fettle.Web.Photos;

[Route("api/v1/photos")]
public sealed class PhotoFilesController(IDocumentStore store) : ApiController
{
    /// <summary>A photo of freight that the caller may see, as a JPEG.</summary>
    [HttpGet("{id:guid}.jpg")]
    [ProducesResponseType<Stream>(StatusCodes.Status200OK, Photo.Jpeg)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Get(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Photo>(id, cancel) is { } photo && Caller.MaySee(photo.Pickup) && await session.BytesAsync(id, thumbnail: false, cancel) is { } bytes
            ? File(bytes, Photo.Jpeg)
            : Answers.NotFound("photo");
    }
}

/// <summary>The action reads a picture or a form with one file by itself; nothing is bound from the body.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class TakesPhotoAttribute : Attribute, IFilterMetadata;

/// <param name="Sha256">Of the stored bytes, in lower-case hexadecimal.</param>
/// <param name="Width">In pixels.</param>
/// <param name="Bytes">How many bytes are stored.</param>
public sealed record PhotoAnswer(Guid Id, Guid PickupId, string Sha256, string MediaType, int Width, int Height, int Bytes, DateTimeOffset TakenAt, string By)
{
    public static PhotoAnswer Of(Photo photo) => new(photo.Id, photo.PickupId, photo.Sha256, photo.MediaType, photo.Width, photo.Height, photo.Bytes, photo.TakenAt, photo.By.Name);
}
