namespace Fettle.Web.Evidence;

/// <summary>The word verify on the command line: needs no database and no settings.</summary>
public static class VerifyCommand
{
    private const string Usage = "Say: verify FILE.zip, or verify FILE.zip --head HEX with the head from the foot of a mail.";

    /// <param name="args">What follows the word.</param>
    /// <returns>The exit code: 0 when all agrees, 1 when something does not, 2 when nothing could be checked.</returns>
    public static int Run(IReadOnlyList<string> args, TextWriter output)
    {
        var head = args is [_, "--head", var given] ? given : null;
        if (args is not ([_] or [_, "--head", _]) || head is not null && head.Trim().Length != 64)
        {
            output.WriteLine(Usage);
            return 2;
        }

        EvidenceFindings findings;
        try
        {
            using var file = File.OpenRead(args[0]);
            findings = EvidenceCheck.Of(EvidenceArchive.Read(file), head);
        }
        catch (InvalidDataException e)
        {
            output.WriteLine($"{args[0]} cannot be read as evidence: {e.Message}");
            return 1;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            output.WriteLine($"{args[0]} cannot be opened: {e.Message}");
            return 2;
        }

        foreach (var fact in findings.Facts)
            output.WriteLine(fact);
        foreach (var problem in findings.Problems)
            output.WriteLine(problem);
        output.WriteLine(findings.IsSound ? "Everything agrees." : "It does not agree.");
        return findings.IsSound ? 0 : 1;
    }
}
