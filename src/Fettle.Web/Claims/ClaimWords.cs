using Fettle.Readiness.Claims;

namespace Fettle.Web.Claims;

/// <summary>Claims as people read them.</summary>
public static class ClaimWords
{
    public static string Care =>
        T("Kept as each side wrote it. Fettle does not judge whether a claim is owed. Days are counted from the carrier's terms and only remind: the tariff, the bill of lading and the law have the last word. Ask a claims handler or a lawyer.");

    public static string Of(ClaimState state) => state switch
    {
        ClaimState.Filed => T("Filed"),
        ClaimState.Acknowledged => T("Acknowledged"),
        ClaimState.Offered => T("Offer made"),
        ClaimState.Agreed => T("Offer taken, to be paid"),
        ClaimState.Disallowed => T("Disallowed"),
        ClaimState.Paid => T("Paid"),
        ClaimState.Withdrawn => T("Withdrawn"),
    };

    /// <summary>How the state is coloured beside its words.</summary>
    public static string Tone(ClaimState state) => state switch
    {
        ClaimState.Paid => "ready",
        ClaimState.Disallowed => "hold",
        ClaimState.Filed or ClaimState.Acknowledged or ClaimState.Offered or ClaimState.Agreed or ClaimState.Withdrawn => "cautions",
    };

    /// <summary>What the carrier does, to be chosen.</summary>
    public static string Of(ClaimAnswer answer) => answer switch
    {
        ClaimAnswer.Acknowledged => T("Acknowledge it"),
        ClaimAnswer.Offered => T("Offer a sum"),
        ClaimAnswer.Disallowed => T("Disallow it"),
        ClaimAnswer.Paid => T("Record the payment"),
    };

    public static string Means(ClaimAnswer answer) => answer switch
    {
        ClaimAnswer.Acknowledged => T("You have it and look into it."),
        ClaimAnswer.Offered => T("The shipper may take the sum. No disallowance: the time for a suit does not begin."),
        ClaimAnswer.Disallowed => T("Nothing is paid, and you say why. The time for a suit begins on the day of your letter."),
        ClaimAnswer.Paid => T("The money is on its way, and the claim ends."),
    };

    /// <summary>What the carrier did, as a sentence without its end.</summary>
    public static string Did(ClaimAnswered answer) => answer.Answer switch
    {
        ClaimAnswer.Acknowledged => T("The carrier has the claim"),
        ClaimAnswer.Offered => T("The carrier offers {0}", answer.Total),
        ClaimAnswer.Disallowed => T("The carrier disallows the claim"),
        ClaimAnswer.Paid => T("The carrier pays {0}", answer.Total),
    };

    /// <summary>"2 × A1: 310.50 USD".</summary>
    public static string Of(ClaimedLine line) => $"{line.Count} × {line.Reference}: {line.Amount}";

    /// <summary>For lists.</summary>
    public static string Short(DateOnly day) => day.ToString("d MMM yyyy", Language.Current.Calendar).Replace(' ', '\u00a0');

    public static string Day(DateOnly day) => day.ToString("ddd d MMM yyyy", Language.Current.Calendar);
}
