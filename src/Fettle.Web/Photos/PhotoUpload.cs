using Fettle.Readiness;
using Microsoft.AspNetCore.Http.Features;

namespace Fettle.Web.Photos;

/// <summary>A photo out of a request: the body itself, or the one file of a form.</summary>
public static class PhotoUpload
{
    /// <summary>What a form puts round a file.</summary>
    public const int FormAllowance = 64 * 1024;

    /// <summary>The most that a request with one photo may hold.</summary>
    public const int LargestRequest = PhotoReader.LargestUpload + FormAllowance;

    /// <summary>
    /// An announced length over the limit is refused before a byte is read; one that was not announced ends the reading when
    /// it is over.
    /// </summary>
    public static async Task<(ReadPhoto? Photo, Refusal? Refusal)> ReadAsync(HttpRequest request, CancellationToken cancel)
    {
        if (request.ContentLength > LargestRequest)
            return (null, new PhotoTooLarge());
        if (!request.HasFormContentType)
            return await PhotoReader.ReadAsync(request.Body, request.ContentLength, cancel);
        IFormCollection form;
        try
        {
            form = await request.ReadFormAsync(new FormOptions { MultipartBodyLengthLimit = LargestRequest, ValueCountLimit = 16 }, cancel);
        }
        catch (InvalidDataException)
        {
            return (null, new PhotoBroken());
        }

        if (form.Files.Count != 1)
            return (null, form.Files.Count == 0 ? new PhotoEmpty() : new OnePhotoAtATime());
        await using var file = form.Files[0].OpenReadStream();
        return await PhotoReader.ReadAsync(file, form.Files[0].Length, cancel);
    }
}

public sealed record OnePhotoAtATime : Refusal
{
    public override string Code => "one-photo";

    public override Readiness.Findings.Phrase Message => Readiness.Findings.Phrase.Of($"Send one photo at a time.");
}
