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

    /// <summary>Photos that came with a form, all or none.</summary>
    /// <returns>What was read, and what is wrong in words; a browser does not keep chosen files.</returns>
    public static async Task<(IReadOnlyList<ReadPhoto> Photos, string? Complaint)> ReadAsync(IReadOnlyList<IFormFile>? files, int most, CancellationToken cancel)
    {
        if (files is null)
            return ([], null);
        if (files.Count > most)
            return ([], T("At most {0} photos.", most));
        var read = new List<ReadPhoto>();
        foreach (var file in files)
        {
            await using var stream = file.OpenReadStream();
            var (photo, refusal) = await PhotoReader.ReadAsync(stream, file.Length, cancel);
            if (refusal is not null)
                return ([], $"{file.FileName}: {refusal.Message.Say(Engineering.Units.UnitSystem.Imperial)} {T("Choose the photos again: a browser does not keep them.")}");
            read.Add(photo!);
        }

        return (read, null);
    }

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
        // A form that ends too early is told as plain IO trouble; what the server itself refuses (too large, too slow) has a status of its own.
        catch (Exception unreadable) when (unreadable is InvalidDataException or IOException and not BadHttpRequestException)
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
