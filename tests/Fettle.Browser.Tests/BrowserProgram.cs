using System.ComponentModel;
using System.Diagnostics;

namespace Fettle.Browser.Tests;

/// <summary>Which browser the tests drive.</summary>
internal static class BrowserProgram
{
    private static readonly string[] Names =
        ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "chrome.exe", "msedge.exe"];

    private static readonly string[] Places =
    [
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
        "/Applications/Chromium.app/Contents/MacOS/Chromium",
        Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.ProgramFiles), "Google", "Chrome", "Application", "chrome.exe"),
        Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.ProgramFilesX86), "Microsoft", "Edge", "Application", "msedge.exe"),
    ];

    /// <summary>
    /// An installed Chromium or Chrome (or the one that <c>FETTLE_BROWSER</c> names); else Playwright's own, which it is
    /// asked to install; else Debian's package, when we may install it.
    /// </summary>
    /// <returns>The program; null for Playwright's own.</returns>
    /// <exception cref="InvalidOperationException">No browser can be had; the message says what to install.</exception>
    public static string? Find()
    {
        if (Environment.GetEnvironmentVariable("FETTLE_BROWSER") is { Length: > 0 } named)
            return File.Exists(named) ? named : throw new InvalidOperationException($"FETTLE_BROWSER names {named}, which is not there.");
        if (Installed() is { } installed)
            return installed;
        if (Microsoft.Playwright.Program.Main(["install", "chromium"]) == 0)
            return null;
        if (!OperatingSystem.IsWindows() && Environment.IsPrivilegedProcess && Runs("apt-get", "update") && Runs("apt-get", "install", "-y", "chromium")
            && Installed() is { } brought)
            return brought;
        throw new InvalidOperationException(
            "The browser tests need Chromium or Chrome, and none is installed or could be fetched: install one (Debian or Ubuntu: apt install chromium), "
            + "or name one with FETTLE_BROWSER.");
    }

    private static string? Installed() =>
        (from folder in (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
         from name in Names
         select Path.Combine(folder, name)).Concat(Places).FirstOrDefault(File.Exists);

    private static bool Runs(string program, params string[] arguments)
    {
        try
        {
            var start = new ProcessStartInfo(program, arguments) { Environment = { ["DEBIAN_FRONTEND"] = "noninteractive" } };
            using var process = Process.Start(start)!;
            process.WaitForExit();
            return process.ExitCode == 0;
        }
        catch (Win32Exception)
        {
            return false;
        }
    }
}
