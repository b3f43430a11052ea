using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Text;
using Fettle.Testing;
using Fettle.Web.Photos;
using Fettle.Web.Tests.Inspections;
using SkiaSharp;

namespace Fettle.Web.Tests.Photos;

/// <summary>What may be uploaded as a photo, and what becomes of it: through real HTTP, down to the stored bytes.</summary>
public sealed class PhotoUploadTests(SharedPortal shared)
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static TheoryData<string> Formats => ["jpeg", "png", "webp"];

    [Theory]
    [MemberData(nameof(Formats))]
    public async Task A_picture_of_the_three_kinds_is_stored_as_a_JPEG_whatever_its_type_says(string format)
    {
        var (pickup, inspection) = await InspectedAsync();
        var sent = format switch { "jpeg" => Pictures.Jpeg(), "png" => Pictures.Png(), _ => Pictures.WebP() };

        var answer = await (await shared.ReviewerAsync()).SendPhotoAsync(inspection, sent, "application/octet-stream");

        Assert.Equal(HttpStatusCode.Created, answer.Status);
        var photo = Assert.Single(await shared.PhotosAsync(pickup));
        var stored = await shared.StoredAsync(photo.Id);
        Assert.Equal([0xFF, 0xD8, 0xFF], stored[..3]);
        Assert.Equal((Convert.ToHexStringLower(SHA256.HashData(stored)), stored.Length, "image/jpeg"), (photo.Sha256, photo.Bytes, photo.MediaType));
        Assert.Equal(photo.Sha256, answer.Json.At("sha256"));
        Assert.Equal(photo.Proof, Assert.Single((await shared.InspectionAsync(inspection)).Photos));
        using var small = SKBitmap.Decode(await shared.StoredAsync(photo.Id, thumbnail: true));
        Assert.Equal(320, Math.Max(small.Width, small.Height));
    }

    [Theory]
    [InlineData(1, 640, 480)]
    [InlineData(3, 640, 480)]
    [InlineData(6, 480, 640)]
    [InlineData(8, 480, 640)]
    public async Task It_is_turned_upright_and_place_camera_and_comments_are_gone(int orientation, int width, int height)
    {
        var (pickup, inspection) = await InspectedAsync();
        var sent = Pictures.FromPhone(Pictures.Jpeg(), orientation);
        Assert.Contains("CAMERAXYZ", Text(sent), StringComparison.Ordinal);

        Assert.Equal(HttpStatusCode.Created, (await (await shared.ReviewerAsync()).SendPhotoAsync(inspection, sent)).Status);

        var photo = Assert.Single(await shared.PhotosAsync(pickup));
        var stored = await shared.StoredAsync(photo.Id);
        Assert.Equal((width, height), (photo.Width, photo.Height));
        Assert.DoesNotContain("Exif", Text(stored), StringComparison.Ordinal);
        Assert.DoesNotContain("CAMERAXYZ", Text(stored), StringComparison.Ordinal);
        Assert.DoesNotContain("script", Text(stored), StringComparison.Ordinal);
        using var picture = SKBitmap.Decode(stored);
        // The first row as sent was red: where the note says that it belongs.
        var (x, y) = orientation switch { 1 => (width / 2, 20), 3 => (width / 2, height - 20), 6 => (width - 20, height / 2), _ => (20, height / 2) };
        var colour = picture.GetPixel(x, y);
        Assert.True(colour.Red > 150 && colour.Blue < 120, $"{colour} at {x}, {y}");
    }

    [Fact]
    public async Task A_large_picture_is_made_smaller()
    {
        var (pickup, inspection) = await InspectedAsync();

        Assert.Equal(HttpStatusCode.Created, (await (await shared.ReviewerAsync()).SendPhotoAsync(inspection, Pictures.Jpeg(3600, 1200))).Status);

        var photo = Assert.Single(await shared.PhotosAsync(pickup));
        Assert.Equal((2400, 800), (photo.Width, photo.Height));
    }

    [Theory]
    [MemberData(nameof(Formats))]
    public async Task Whatever_is_hidden_behind_the_end_of_a_picture_is_gone(string format)
    {
        var (pickup, inspection) = await InspectedAsync();
        var sent = Pictures.WithTail(format switch { "jpeg" => Pictures.Jpeg(), "png" => Pictures.Png(), _ => Pictures.WebP() });

        var answer = await (await shared.ReviewerAsync()).SendPhotoAsync(inspection, sent);

        Assert.Equal(HttpStatusCode.Created, answer.Status);
        foreach (var thumbnail in (bool[])[false, true])
        {
            var stored = await shared.StoredAsync(Assert.Single(await shared.PhotosAsync(pickup)).Id, thumbnail);
            Assert.Equal([0xFF, 0xD9], stored[^2..]);
            Assert.DoesNotContain("alert", Text(stored), StringComparison.Ordinal);
            Assert.DoesNotContain("evil", Text(stored), StringComparison.Ordinal);
            Assert.DoesNotContain("PK\u0003\u0004", Text(stored), StringComparison.Ordinal);
        }
    }

    public static TheoryData<string, HttpStatusCode, string> Refused => new()
    {
        { "text", HttpStatusCode.UnsupportedMediaType, "not-a-photo" },
        { "svg", HttpStatusCode.UnsupportedMediaType, "not-a-photo" },
        { "gif", HttpStatusCode.UnsupportedMediaType, "not-a-photo" },
        { "html", HttpStatusCode.UnsupportedMediaType, "not-a-photo" },
        { "pdf", HttpStatusCode.UnsupportedMediaType, "not-a-photo" },
        { "nothing", HttpStatusCode.UnprocessableEntity, "photo-empty" },
        { "three bytes", HttpStatusCode.UnprocessableEntity, "photo-broken" },
        { "magic and noise", HttpStatusCode.UnprocessableEntity, "photo-broken" },
        { "half a jpeg", HttpStatusCode.UnprocessableEntity, "photo-broken" },
        { "half a png", HttpStatusCode.UnprocessableEntity, "photo-broken" },
        { "half a webp", HttpStatusCode.UnprocessableEntity, "photo-broken" },
        { "bomb", HttpStatusCode.UnprocessableEntity, "too-many-pixels" },
    };

    [Theory]
    [MemberData(nameof(Refused))]
    public async Task What_is_no_whole_picture_is_refused_in_a_sentence_and_nothing_is_kept(string what, HttpStatusCode status, string code)
    {
        var (pickup, inspection) = await InspectedAsync();
        var sent = what switch
        {
            "text" => "It is a photo, honestly."u8.ToArray(),
            "svg" => Encoding.UTF8.GetBytes(Pictures.Svg),
            "gif" => [.. "GIF89a"u8, 1, 0, 1, 0, 0, 0, 0, 0x3B],
            "html" => "<html><script>alert(1)</script>"u8.ToArray(),
            "pdf" => "%PDF-1.7\n"u8.ToArray(),
            "nothing" => [],
            "three bytes" => [0xFF, 0xD8, 0xFF],
            "magic and noise" => [0xFF, 0xD8, 0xFF, 0xE0, .. Enumerable.Range(0, 5000).Select(i => (byte)(i * 37 % 256))],
            "half a jpeg" => Half(Pictures.Jpeg()),
            "half a png" => Half(Pictures.Png()),
            "half a webp" => Half(Pictures.WebP()),
            _ => Pictures.Bomb(),
        };

        // As raw bytes that say they are a picture, and as a file with the right name in a form.
        var raw = await (await shared.ReviewerAsync()).SendPhotoAsync(inspection, sent);
        var form = await SendFormAsync(inspection, sent, "pallet.jpg");

        foreach (var answer in (ApiAnswer[])[raw, form])
        {
            Assert.Equal(status, answer.Status);
            Assert.Equal($"urn:fettle:problem:{code}", answer.Json.At("type"));
            Assert.EndsWith(".", answer.Json.At("detail"), StringComparison.Ordinal);
        }

        Assert.Empty(await shared.PhotosAsync(pickup));
        Assert.Empty((await shared.InspectionAsync(inspection)).Photos);
    }

    [Fact]
    public async Task Fifty_megabytes_are_refused_before_they_are_sent()
    {
        var (pickup, inspection) = await InspectedAsync();
        using var content = new ByteArrayContent(new byte[50_000_000]);
        content.Headers.ContentType = new("image/jpeg");
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/v1/inspections/{inspection}/photos") { Content = content };
        // The server is asked before the body goes out.
        request.Headers.ExpectContinue = true;

        var answer = await (await shared.ReviewerAsync()).AnswerAsync(request);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.Status);
        Assert.Equal("urn:fettle:problem:photo-too-large", answer.Json.At("type"));
        Assert.Contains("15 MB", answer.Json.At("detail"), StringComparison.Ordinal);
        Assert.Empty(await shared.PhotosAsync(pickup));
    }

    [Fact]
    public async Task One_byte_over_15_MB_is_too_large_however_it_is_sent()
    {
        var (pickup, inspection) = await InspectedAsync();
        byte[] sent = [.. Pictures.Jpeg(), .. new byte[PhotoReader.LargestUpload]];
        using var content = new StreamContent(new Unmeasured(sent));
        content.Headers.ContentType = new("image/jpeg");
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/v1/inspections/{inspection}/photos") { Content = content };
        request.Headers.TransferEncodingChunked = true;

        var answer = await (await shared.ReviewerAsync()).AnswerAsync(request);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.Status);
        Assert.Empty(await shared.PhotosAsync(pickup));
    }

    [Fact]
    public async Task An_upload_that_breaks_off_in_the_middle_leaves_nothing()
    {
        var (pickup, inspection) = await InspectedAsync();
        var client = await shared.ReviewerAsync();
        var picture = Pictures.Jpeg();
        var address = (await shared.PortalAsync()).Address;
        for (var i = 0; i < 3; i++)
        {
            using var socket = new TcpClient();
            await socket.ConnectAsync(address.Host, address.Port, Cancel);
            await using var stream = socket.GetStream();
            var head = $"POST /api/v1/inspections/{inspection}/photos HTTP/1.1\r\nHost: {address.Authority}\r\nAuthorization: {client.DefaultRequestHeaders.Authorization}\r\nContent-Type: image/jpeg\r\nContent-Length: {picture.Length}\r\n\r\n";
            await stream.WriteAsync(Encoding.ASCII.GetBytes(head), Cancel);
            await stream.WriteAsync(picture.AsMemory(0, picture.Length / 2), Cancel);
            socket.Client.LingerState = new LingerOption(i == 1, 0);
        }

        // What comes after it on another connection is served, and finds nothing of it.
        Assert.Equal(HttpStatusCode.Created, (await client.SendPhotoAsync(inspection, picture)).Status);
        Assert.Single(await shared.PhotosAsync(pickup));
        Assert.Single((await shared.InspectionAsync(inspection)).Photos);
    }

    [Fact]
    public async Task The_same_photo_twice_also_at_once_is_there_once()
    {
        var (pickup, inspection) = await InspectedAsync();
        var client = await shared.ReviewerAsync();
        var picture = Pictures.Jpeg();

        var answers = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => client.SendPhotoAsync(inspection, picture)));
        var later = await client.SendPhotoAsync(inspection, picture);

        Assert.All([.. answers, later], answer => Assert.Equal(HttpStatusCode.Created, answer.Status));
        Assert.Single(answers.Append(later).Select(answer => answer.Json.At("id")).Distinct());
        Assert.Single(await shared.PhotosAsync(pickup));
        Assert.Single((await shared.InspectionAsync(inspection)).Photos);
    }

    [Fact]
    public async Task Two_files_at_once_and_a_form_without_one_are_refused()
    {
        var (_, inspection) = await InspectedAsync();
        using var two = new MultipartFormDataContent { { new ByteArrayContent(Pictures.Png()), "photo", "a.png" }, { new ByteArrayContent(Pictures.Png()), "photo", "b.png" } };
        using var none = new MultipartFormDataContent { { new StringContent("hello"), "note" } };
        foreach (var content in (MultipartFormDataContent[])[two, none])
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/v1/inspections/{inspection}/photos") { Content = content };
            Assert.Equal(HttpStatusCode.UnprocessableEntity, (await (await shared.ReviewerAsync()).AnswerAsync(request)).Status);
        }
    }

    [Theory]
    [InlineData("--pallets\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"a.jpg\"\r\n\r\nhalf of it")]
    [InlineData("--pallets\r\nContent-Disposition: form-data; name=\"photo\"")]
    [InlineData("--pallets\r\n")]
    public async Task A_form_that_ends_too_early_is_a_broken_photo(string body)
    {
        var (pickup, inspection) = await InspectedAsync();
        using var content = new ByteArrayContent(Encoding.ASCII.GetBytes(body));
        content.Headers.ContentType = MediaTypeHeaderValue.Parse("multipart/form-data; boundary=pallets");
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/v1/inspections/{inspection}/photos") { Content = content };

        var answer = await (await shared.ReviewerAsync()).AnswerAsync(request);

        Assert.Equal((HttpStatusCode.UnprocessableEntity, "urn:fettle:problem:photo-broken"), (answer.Status, answer.Json.At("type")));
        Assert.Empty(await shared.PhotosAsync(pickup));
    }

    [Fact]
    public async Task A_photo_is_shown_to_whoever_may_see_the_freight_and_nothing_can_run_in_it()
    {
        var (pickup, inspection) = await InspectedAsync();
        await (await shared.ReviewerAsync()).SendPhotoAsync(inspection, Pictures.Jpeg());
        var photo = Assert.Single(await shared.PhotosAsync(pickup));

        foreach (var who in (string[])["rita", "clara", "mona", "ada"])
        {
            foreach (var path in (string[])[$"/photos/{photo.Id}", $"/photos/{photo.Id}/thumbnail"])
            {
                var answer = await (await shared.PersonAsync(who)).GetAsync(path);
                Assert.Equal(HttpStatusCode.OK, answer.Status);
                Assert.Equal("image/jpeg", answer.Headers["Content-Type"]);
                Assert.Equal("nosniff", answer.Headers["X-Content-Type-Options"]);
                Assert.Contains("sandbox", answer.Headers["Content-Security-Policy"], StringComparison.Ordinal);
                Assert.Contains("default-src 'none'", answer.Headers["Content-Security-Policy"], StringComparison.Ordinal);
                Assert.Matches($"^inline; filename=\"P-[0-9A-Z]{{6}}-{photo.Id:N}(-small)?\\.jpg\"$", answer.Headers["Content-Disposition"]);
            }
        }

        foreach (var who in (string[])["otto", "olaf", "owen"])
        {
            Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync(who)).GetAsync($"/photos/{photo.Id}")).Status);
            Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync(who)).GetAsync($"/photos/{photo.Id}/thumbnail")).Status);
        }

        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync("rita")).GetAsync($"/photos/{Guid.NewGuid()}")).Status);
        using var file = await (await shared.ClerkAsync()).GetAsync(new Uri($"/api/v1/photos/{photo.Id}.jpg", UriKind.Relative), Cancel);
        Assert.Equal(await shared.StoredAsync(photo.Id), await file.Content.ReadAsByteArrayAsync(Cancel));
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.OtherClerkAsync()).ReadAsync($"/api/v1/photos/{photo.Id}.jpg")).Status);
    }

    [Fact]
    public async Task Nobody_adds_photos_to_somebody_elses_freight()
    {
        var (pickup, inspection) = await InspectedAsync();
        var portal = await shared.PortalAsync();

        Assert.Equal(HttpStatusCode.NotFound, (await (await portal.ApiAsync(portal.Parties.OtherReviewer)).SendPhotoAsync(inspection, Pictures.Jpeg())).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await (await shared.ClerkAsync()).SendPhotoAsync(inspection, Pictures.Jpeg())).Status);
        Assert.Equal(HttpStatusCode.Unauthorized, (await (await shared.AnonymousAsync()).SendPhotoAsync(inspection, Pictures.Jpeg())).Status);
        Assert.Empty(await shared.PhotosAsync(pickup));
    }

    private async Task<(Guid Pickup, Guid Inspection)> InspectedAsync()
    {
        var pickup = await shared.SoundAsync();
        return (pickup.Id, await shared.InspectedAsync(pickup));
    }

    private async Task<ApiAnswer> SendFormAsync(Guid inspection, byte[] picture, string name)
    {
        var file = new ByteArrayContent(picture);
        file.Headers.ContentType = new MediaTypeHeaderValue("image/jpeg");
        using var form = new MultipartFormDataContent { { file, "photo", name } };
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/v1/inspections/{inspection}/photos") { Content = form };
        return await (await shared.ReviewerAsync()).AnswerAsync(request);
    }

    private static byte[] Half(byte[] whole) => whole[..(whole.Length / 2)];

    private static string Text(byte[] bytes) => Encoding.Latin1.GetString(bytes);

    /// <summary>A stream that does not tell its length, so that it is sent in chunks.</summary>
    private sealed class Unmeasured(byte[] content) : MemoryStream(content)
    {
        public override bool CanSeek => false;
    }
}
