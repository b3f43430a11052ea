namespace Fettle.Engineering.Tests;

/// <summary>Comma-separated benchmark data that the test assembly carries, without the heading.</summary>
internal static class DataFile
{
    public static IEnumerable<string[]> Rows(string name)
    {
        using var stream = typeof(DataFile).Assembly.GetManifestResourceStream($"Data/{name}")
            ?? throw new FileNotFoundException("Not carried by the test assembly.", name);
        using var reader = new StreamReader(stream);
        reader.ReadLine();
        while (reader.ReadLine() is { Length: > 0 } line)
            yield return line.Split(',');
    }
}
