namespace Fettle.Testing;

/// <summary>The checkout that the tests were built from, for tests of files that ship beside the code.</summary>
public static class Repository
{
    /// <summary>The folder that holds <c>Fettle.slnx</c>.</summary>
    public static string Root { get; } = Find();

    public static string PathTo(string relative) => Path.Combine(Root, relative.Replace('/', Path.DirectorySeparatorChar));

    public static string Read(string relative) => File.ReadAllText(PathTo(relative));

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Fettle.slnx")))
                return folder.FullName;
        }
        throw new InvalidOperationException($"{AppContext.BaseDirectory} is not inside a checkout of Fettle.");
    }
}
