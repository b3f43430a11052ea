using Fettle.Readiness.Scans;

namespace Fettle.Web.Scans;

/// <summary>What is said of a scan that cannot be used.</summary>
public static class ScanWords
{
    /// <returns>Null when it can.</returns>
    public static string? Complaint(Scanned scanned) => scanned switch
    {
        WrongCheckDigit wrong => T("{0} is misread or mistyped: its last digit is {1}, and to the others belongs {2}. Scan it again, or compare digit by digit.", wrong.Digits, wrong.Last, wrong.Fits),
        WrongLength wrong => T("An SSCC has 18 digits; this has {0}. Scan it again.", wrong.Digits.Length),
        NothingScanned => T("Scan or type something."),
        _ => null,
    };
}
