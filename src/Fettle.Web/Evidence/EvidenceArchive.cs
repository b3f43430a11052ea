using System.IO.Compression;

namespace Fettle.Web.Evidence;

/// <summary>
/// Reads a ZIP that anybody may have made. Nothing is unpacked to disk; what has a strange name, comes twice, or is larger
/// than evidence can be is refused before it is read to its end.
/// </summary>
public static class EvidenceArchive
{
    /// <summary>Photos of a pickup are a few hundred at the most.</summary>
    public const int MostEntries = 5_000;

    public const long LargestEntry = 64L << 20;
    public const long Largest = 1L << 30;

    /// <exception cref="InvalidDataException">It is no ZIP, or one that is not to be read; the message says why.</exception>
    public static IReadOnlyDictionary<string, byte[]> Read(Stream stream)
    {
        using var zip = new ZipArchive(stream, ZipArchiveMode.Read);
        if (zip.Entries.Count > MostEntries)
            throw new InvalidDataException($"It holds {zip.Entries.Count} files; evidence has at most {MostEntries}.");
        var files = new Dictionary<string, byte[]>(StringComparer.Ordinal);
        var all = 0L;
        foreach (var entry in zip.Entries)
        {
            if (!IsOrdinary(entry.FullName))
                throw new InvalidDataException($"It holds a file of the name \"{Printable(entry.FullName)}\", which evidence does not have.");
            if (files.ContainsKey(entry.FullName))
                throw new InvalidDataException($"It holds {entry.FullName} twice.");
            var content = Read(entry, Math.Min(LargestEntry, Largest - all));
            all += content.Length;
            files.Add(entry.FullName, content);
        }

        return files;
    }

    /// <summary>Not what the header promises but what comes is counted.</summary>
    private static byte[] Read(ZipArchiveEntry entry, long most)
    {
        using var content = new MemoryStream();
        using var source = entry.Open();
        var buffer = new byte[81_920];
        for (var read = source.Read(buffer); read > 0; read = source.Read(buffer))
        {
            if (content.Length + read > most)
                throw new InvalidDataException($"{entry.FullName} is larger than evidence can be.");
            content.Write(buffer, 0, read);
        }

        return content.ToArray();
    }

    /// <summary>"records.jsonl" or "photos/0001.jpg": letters, digits, dots, dashes, at most one folder.</summary>
    private static bool IsOrdinary(string name) =>
        name.Length is > 0 and <= 100
        && name.Split('/') is { Length: <= 2 } parts
        && parts.All(part => part.Length > 0 && part[0] != '.' && part.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_'));

    private static string Printable(string name) => new([.. name.Take(80).Select(c => c is >= ' ' and < (char)127 ? c : '?')]);
}
