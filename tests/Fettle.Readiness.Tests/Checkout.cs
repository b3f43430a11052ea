namespace Fettle.Readiness.Tests;

/// <summary>The checkout that the tests were built from.</summary>
internal static class Checkout
{
    public static string Root { get; } = Find();

    public static string PathTo(params ReadOnlySpan<string> parts) => Path.Combine([Root, .. parts]);

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
