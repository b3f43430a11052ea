using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using Fettle.Web.Store.Postgres;
using Microsoft.Extensions.Logging.Abstractions;

namespace Fettle.Web.Tests.Crash;

/// <summary>
/// A test process that is killed cannot kill its nodes. They are noted in files that carry the number of the process that
/// started them, and the next test process ends what has no living maker.
/// </summary>
internal static class Leftovers
{
    /// <summary>A process that began at another time than its note has only inherited the number.</summary>
    private static readonly TimeSpan StartTolerance = TimeSpan.FromSeconds(10);

    private static readonly string Root = Path.Combine(Path.GetTempPath(), "fettle-crash");

    private static readonly Lazy<Task> Removed = new(RemoveAsync);

    private static string Ours => Environment.ProcessId.ToString(CultureInfo.InvariantCulture);

    /// <summary>A data folder for a private server.</summary>
    public static string NewFolder() => Path.Combine(Root, $"{Ours}-{Path.GetRandomFileName()}");

    /// <summary>To be awaited before the first node is started.</summary>
    public static Task AreRemovedAsync() => Removed.Value;

    public static void Note(Process node) => File.WriteAllText(NoteOf(node.Id), "");

    public static void Forget(int node) => File.Delete(NoteOf(node));

    private static string NoteOf(int node) => Path.Combine(Root, string.Create(CultureInfo.InvariantCulture, $"{Ours}-{node}.node"));

    private static async Task RemoveAsync()
    {
        var left = Directory.CreateDirectory(Root).EnumerateFileSystemInfos().Where(entry => !HasLivingMaker(entry.Name)).ToList();
        foreach (var note in left.OfType<FileInfo>())
        {
            Kill(note);
            note.Delete();
        }

        foreach (var folder in left.OfType<DirectoryInfo>())
        {
            try
            {
                await PrivatePostgres.DestroyAsync(new() { DataFolder = folder.FullName }, NullLogger.Instance, CancellationToken.None);
            }
            catch (IOException)
            {
                // Another test process is removing the same one.
            }
        }
    }

    private static void Kill(FileInfo note)
    {
        try
        {
            using var node = Process.GetProcessById(Number(Path.GetFileNameWithoutExtension(note.Name).Split('-')[1]));
            if ((node.StartTime - note.LastWriteTime).Duration() < StartTolerance)
                node.Kill(entireProcessTree: true);
        }
        catch (Exception gone) when (gone is ArgumentException or InvalidOperationException or Win32Exception)
        {
            // It has ended, as it should have.
        }
    }

    private static bool HasLivingMaker(string name)
    {
        try
        {
            using var maker = Process.GetProcessById(Number(name.Split('-')[0]));
            return true;
        }
        catch (ArgumentException)
        {
            return false;
        }
    }

    /// <summary>No process has the number of what is no number.</summary>
    private static int Number(string text) => int.TryParse(text, CultureInfo.InvariantCulture, out var number) ? number : -1;
}
