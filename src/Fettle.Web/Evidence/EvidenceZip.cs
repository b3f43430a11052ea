using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Fettle.Readiness.Evidence;

namespace Fettle.Web.Evidence;

/// <summary>Writes the file of a pickup. The same state gives the same content, in the same order and with the same times.</summary>
public static class EvidenceZip
{
    public const string ContentType = "application/zip";
    public const string Records = "records.jsonl";
    public const string Manifest = "manifest.json";
    public const string Seal = "seal.sha256";
    public const string Summary = "summary.pdf";
    public const string ReadMe = "README.txt";

    private static readonly DateTimeOffset EarliestInZip = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <param name="lines">The records' lines, in the order of the links.</param>
    /// <param name="files">Photos and the summary, with their content.</param>
    public static byte[] Write(
        Guid pickupId, string number, IReadOnlyList<ChainLink> links, IReadOnlyList<byte[]> lines, IReadOnlyList<(string Name, byte[] Content, Guid? PhotoId)> files, IReadOnlyList<EvidenceRemoval> removed)
    {
        IReadOnlyList<(string Name, byte[] Content, Guid? PhotoId)> parts = [(ReadMe, Encoding.UTF8.GetBytes(Explanation(number)), null), .. files];
        var manifest = Canonical.Bytes(new EvidenceManifest(
            EvidenceManifest.Version,
            pickupId,
            number,
            Chain.Origin(pickupId),
            Chain.Head(pickupId, links),
            links,
            [.. parts.Select(part => new EvidenceFilePart(part.Name, Convert.ToHexStringLower(SHA256.HashData(part.Content)), part.Content.Length, part.PhotoId))],
            removed));
        var at = links.Count == 0 ? EarliestInZip : links.Max(link => link.At).ToUniversalTime();
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(Records, [.. lines.SelectMany(line => line.Append((byte)'\n'))]);
            foreach (var (name, content, _) in parts)
                Add(name, content);
            Add(Manifest, manifest);
            Add(Seal, Encoding.ASCII.GetBytes($"{Convert.ToHexStringLower(SHA256.HashData(manifest))}  {Manifest}\n"));

            void Add(string name, byte[] content)
            {
                var entry = zip.CreateEntry(name, CompressionLevel.Optimal);
                entry.LastWriteTime = at < EarliestInZip ? EarliestInZip : at;
                using var stream = entry.Open();
                stream.Write(content);
            }
        }

        return bytes.ToArray();
    }

    private static string Explanation(string number) =>
        $"""
        The file of pickup {number}: what was declared, found, inspected, decided and delivered, by whom and when.

        {Records}    one record a line, as JSON, in the order in which they were chained
        photos/           the photos, as they were stored
        {Summary}     the same for people
        {Manifest}     the chain: number, kind, time and hash of every record, and the SHA-256 of every other file
        {Seal}       the SHA-256 of {Manifest}; "sha256sum -c {Seal}" compares it

        Check it with the portal's own program:  dotnet Fettle.Web.dll verify FILE.zip
        and against a mail that you have kept:    dotnet Fettle.Web.dll verify FILE.zip --head HEX
        where HEX is the head at the foot of the mail.

        Or by hand: link 0 is the SHA-256 of the text "fettle evidence 1", a line feed and the pickup's id; link n is the
        SHA-256 of the 32 bytes of link n-1 followed by the bytes of line n without its line feed.

        The file by itself shows that nobody has changed a part of it by mistake or by halves. That nobody has written all of
        it anew is shown by the heads in mails that were sent at the time, which shipper and carrier each keep.

        """.ReplaceLineEndings("\n");
}
