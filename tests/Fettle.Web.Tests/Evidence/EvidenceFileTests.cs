using System.IO.Compression;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using CsCheck;
using Fettle.Readiness.Evidence;
using Fettle.Web.Evidence;

namespace Fettle.Web.Tests.Evidence;

/// <summary>A file by itself: what was done to it is found and named.</summary>
public sealed class EvidenceFileTests
{
    private static readonly Guid Pickup = new("0198a1c0-0000-7000-8000-000000000001");
    private static readonly Guid Photo = new("0198a1c0-0000-7000-8000-0000000000aa");
    private static readonly byte[] Picture = [0xFF, 0xD8, 1, 2, 3, 0xFF, 0xD9];
    private static readonly DateTimeOffset At = new(2026, 3, 5, 21, 40, 12, TimeSpan.Zero);

    private static readonly EvidenceRecord[] Records =
    [
        EvidenceRecord.OfEvent(Pickup, 1, "pickup_submitted", At, """{"exceptionRequest":"please"}"""),
        EvidenceRecord.OfEvent(Photo, 1, "hold_placed", At.AddMinutes(1), "{}"),
        EvidenceNotes.Kept(Photo, Sha(Picture), At, At.AddMinutes(2), "Sam Marsh"),
        EvidenceRecord.OfEvent(Photo, 2, "hold_decided", At.AddMinutes(3), """{"reason":"Strapped on our dock."}"""),
    ];

    private static readonly IReadOnlyList<ChainLink> Links = Chain.Seal(Pickup, [], Records).Links;

    [Fact]
    public void An_untouched_file_agrees_and_says_what_it_is()
    {
        var (code, said) = Verify(Zip());
        Assert.Equal(0, code);
        Assert.Contains("Pickup P-4K7Q2M: 4 records, 1 photo.", said, StringComparison.Ordinal);
        Assert.Contains($"Head: {Links[^1].Hash}", said, StringComparison.Ordinal);
        Assert.EndsWith("Everything agrees.\n", said, StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_state_gives_the_same_bytes() => Assert.Equal(Zip(), Zip());

    [Fact]
    public void Its_seal_is_what_sha256sum_reads()
    {
        var files = EvidenceArchive.Read(new MemoryStream(Zip()));
        Assert.Equal($"{Sha(files["manifest.json"])}  manifest.json\n", Encoding.ASCII.GetString(files["seal.sha256"]));
    }

    [Fact]
    public void A_changed_event_is_named_by_number_kind_and_time() => Found(
        files => Edit(files, "records.jsonl", text => text.Replace("Strapped on our dock.", "Strapped on your dock", StringComparison.Ordinal)),
        "Record 4, hold decided of 2026-03-05 21:43:12 UTC, was changed.");

    [Fact]
    public void A_missing_event_is_named() => Found(
        files => Edit(files, "records.jsonl", text => string.Join('\n', text.Split('\n').Where((_, i) => i != 1))),
        "Record 2, hold placed of 2026-03-05 21:41:12 UTC, is missing.");

    [Fact]
    public void An_added_event_is_named() => Found(
        files => files["records.jsonl"] = [.. files["records.jsonl"], .. EvidenceRecord.OfEvent(Pickup, 9, "hold_decided", At.AddHours(1), "{}").Line(5), (byte)'\n'],
        "Line 5 of records.jsonl, hold decided of 2026-03-05 22:40:12 UTC, was added: it is not in the chain.");

    [Fact]
    public void Events_out_of_order_are_named() => Found(
        files => Edit(files, "records.jsonl", text =>
        {
            var lines = text.Split('\n');
            return string.Join('\n', (string[])[lines[1], lines[0], .. lines[2..]]);
        }),
        "Record 1, pickup submitted of 2026-03-05 21:40:12 UTC, is not at its place.");

    [Fact]
    public void A_changed_photo_is_named() => Found(
        files => files[$"photos/{Photo}.jpg"] = [1, 2, 3, 4, 5, 6, 7],
        $"Photo {Photo} (photos/{Photo}.jpg) was changed.");

    [Fact]
    public void A_missing_photo_is_named() => Found(files => files.Remove($"photos/{Photo}.jpg"), $"Photo {Photo} (photos/{Photo}.jpg) is missing.");

    [Fact]
    public void An_added_photo_is_named() => Found(files => files["photos/another.jpg"] = Picture, "photos/another.jpg was added: the manifest does not name it.");

    [Fact]
    public void A_changed_manifest_is_found() => Found(
        files => Edit(files, "manifest.json", text => text.Replace("P-4K7Q2M", "P-4K7Q2N", StringComparison.Ordinal)),
        "manifest.json is not the one that was sealed: it was changed, or seal.sha256 was.");

    [Fact]
    public void A_photo_that_a_record_names_and_the_manifest_hides_is_missing()
    {
        var (code, said) = Verify(EvidenceZip.Write(Pickup, "P-4K7Q2M", Links, Lines(Links, Records), [], []));
        Assert.Equal(1, code);
        Assert.Contains($"Photo {Photo} with the hash {Sha(Picture)}, which a record names, is missing.", said, StringComparison.Ordinal);
    }

    [Fact]
    public void A_photo_removed_by_retention_is_called_so_and_not_missing()
    {
        var removed = At.AddYears(6);
        EvidenceRecord[] records = [.. Records, EvidenceNotes.Removed(Photo, Sha(Picture), removed, "Kept for 6 years.")];
        var links = Chain.Seal(Pickup, Links, records).Links;
        var (code, said) = Verify(EvidenceZip.Write(Pickup, "P-4K7Q2M", links, Lines(links, records), [], [new(Photo, Sha(Picture), removed, "Kept for 6 years.")]));
        Assert.Equal(0, code);
        Assert.Contains($"Photo {Photo} was removed by retention on 2032-03-05: Kept for 6 years.", said, StringComparison.Ordinal);
        Assert.DoesNotContain("missing", said, StringComparison.Ordinal);
    }

    [Fact]
    public void A_photo_that_is_only_called_removed_is_missing()
    {
        var (code, said) = Verify(EvidenceZip.Write(Pickup, "P-4K7Q2M", Links, Lines(Links, Records), [], [new(Photo, Sha(Picture), At, "Says who?")]));
        Assert.Equal(1, code);
        Assert.Contains("no record says so: it is missing.", said, StringComparison.Ordinal);
    }

    [Fact]
    public void An_old_head_proves_what_came_before_it()
    {
        var (code, said) = Verify(Zip(), "--head", Links[1].Hash);
        Assert.Equal(0, code);
        Assert.Contains("The head given is that of record 2 of 4, hold placed of 2026-03-05 21:41:12 UTC", said, StringComparison.Ordinal);
        Assert.Equal(0, Verify(Zip(), "--head", Links[3].Hash.ToUpperInvariant()).Code);
    }

    [Fact]
    public void A_file_written_anew_as_a_whole_agrees_with_itself_and_not_with_an_old_head()
    {
        EvidenceRecord[] forged = [Records[0] with { Data = """{"exceptionRequest":"never asked"}""" }, .. Records[1..]];
        var links = Chain.Seal(Pickup, [], forged).Links;
        var zip = EvidenceZip.Write(Pickup, "P-4K7Q2M", links, Lines(links, forged), Photos, []);
        Assert.Equal(0, Verify(zip).Code);
        var (code, said) = Verify(zip, "--head", Links[3].Hash);
        Assert.Equal(1, code);
        Assert.Contains("The head given is not in this chain", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Any_byte_flipped_in_any_part_is_found()
    {
        var sound = EvidenceArchive.Read(new MemoryStream(Zip()));
        string[] names = [.. sound.Keys];
        Gen.Select(Gen.Int[0, names.Length - 1], Gen.Int[0, 100_000], Gen.Int[1, 255]).Sample((which, at, flip) =>
        {
            var files = sound.ToDictionary(StringComparer.Ordinal);
            var bytes = files[names[which]].ToArray();
            bytes[at % bytes.Length] ^= (byte)flip;
            files[names[which]] = bytes;
            Assert.NotEmpty(EvidenceCheck.Of(files, null).Problems);
        }, iter: 2000);
    }

    [Theory]
    [InlineData("../records.jsonl")]
    [InlineData("/etc/passwd")]
    [InlineData("photos/../../x")]
    [InlineData("a\\b")]
    [InlineData("C:x")]
    [InlineData("photos/a/b")]
    [InlineData(".hidden")]
    public void A_file_whose_name_leads_elsewhere_is_refused(string name)
    {
        var (code, said) = Verify(Packed((name, [1])));
        Assert.Equal(1, code);
        Assert.Contains("which evidence does not have", said, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_swells_is_refused_before_it_is_read()
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            using var stream = zip.CreateEntry("records.jsonl", CompressionLevel.Fastest).Open();
            var zeros = new byte[1 << 20];
            for (var i = 0; i < 70; i++)
                stream.Write(zeros);
        }

        Assert.InRange(bytes.Length, 1, 2 << 20);
        var (code, said) = Verify(bytes.ToArray());
        Assert.Equal(1, code);
        Assert.Contains("records.jsonl is larger than evidence can be.", said, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_that_comes_twice_is_refused() => Assert.Contains("twice", Verify(Packed(("a", [1]), ("a", [2]))).Said, StringComparison.Ordinal);

    [Fact]
    public void Too_many_files_are_refused() =>
        Assert.Contains("evidence has at most", Verify(Packed([.. Enumerable.Range(0, EvidenceArchive.MostEntries + 1).Select(i => ($"f{i}", Array.Empty<byte>()))])).Said, StringComparison.Ordinal);

    [Fact]
    public void What_is_no_evidence_is_said_to_be_none()
    {
        Assert.Equal(1, Verify("not a zip"u8.ToArray()).Code);
        Assert.Equal(1, Verify(Packed(("records.jsonl", [1]))).Code);
        foreach (var manifest in (string[])["", "null", "[]", "{}", "{\"format\":\"fettle evidence 1\"}", "{\"links\":[null]}"])
            Assert.Equal(1, Verify(Packed(("manifest.json", Encoding.UTF8.GetBytes(manifest)))).Code);
        Assert.Equal(2, VerifyCommand.Run(["/no/such/file.zip"], TextWriter.Null));
        Assert.Equal(2, VerifyCommand.Run([], TextWriter.Null));
        Assert.Equal(2, VerifyCommand.Run(["a.zip", "--head", "abc"], TextWriter.Null));
        Assert.Equal(2, VerifyCommand.Run(["a.zip", "b.zip"], TextWriter.Null));
    }

    private static (string Name, byte[] Content, Guid? PhotoId)[] Photos => [($"photos/{Photo}.jpg", Picture, Photo)];

    private static byte[] Zip() => EvidenceZip.Write(Pickup, "P-4K7Q2M", Links, Lines(Links, Records), Photos, []);

    private static byte[][] Lines(IReadOnlyList<ChainLink> links, IReadOnlyList<EvidenceRecord> records) =>
        [.. links.Select(link => records.Single(record => record.Source == link.Source).Line(link.Number))];

    private static void Found(Action<Dictionary<string, byte[]>> tamper, string said)
    {
        var files = EvidenceArchive.Read(new MemoryStream(Zip())).ToDictionary(StringComparer.Ordinal);
        tamper(files);
        var (code, text) = Verify(Packed([.. files.Select(file => (file.Key, file.Value))]));
        Assert.Equal(1, code);
        Assert.Contains(said + "\n", text, StringComparison.Ordinal);
        Assert.EndsWith("It does not agree.\n", text, StringComparison.Ordinal);
    }

    private static void Edit(Dictionary<string, byte[]> files, string name, Func<string, string> edit) => files[name] = Encoding.UTF8.GetBytes(edit(Encoding.UTF8.GetString(files[name])));

    private static byte[] Packed(params IReadOnlyList<(string Name, byte[] Content)> files)
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, content) in files)
            {
                using var stream = zip.CreateEntry(name).Open();
                stream.Write(content);
            }
        }

        return bytes.ToArray();
    }

    private static (int Code, string Said) Verify(byte[] zip, params IReadOnlyList<string> more)
    {
        var path = Path.Combine(Path.GetTempPath(), $"{Guid.CreateVersion7():N}.zip");
        File.WriteAllBytes(path, zip);
        try
        {
            using var said = new StringWriter { NewLine = "\n" };
            var code = VerifyCommand.Run([path, .. more], said);
            return (code, said.ToString());
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static string Sha(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
