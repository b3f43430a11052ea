using Fettle.Readiness.Outcomes;

namespace Fettle.Web.Outcomes;

/// <summary>Outcomes as people read them.</summary>
public static class OutcomeWords
{
    public static string DeadlineCare =>
        T("Counted from the carrier's terms, without the day of delivery; they only remind. The tariff, the bill of lading and the law have the last word: ask a claims handler.");

    public static string Of(OutcomeKind kind) => kind switch
    {
        OutcomeKind.Clean => T("whole"),
        OutcomeKind.Short => T("missing"),
        OutcomeKind.Damaged => T("damaged"),
        OutcomeKind.Refused => T("not taken by the consignee"),
        OutcomeKind.Stayed => T("did not travel"),
    };

    public static string Of(DamagePlace place) => place switch
    {
        DamagePlace.Top => T("on top"),
        DamagePlace.Side => T("at a side"),
        DamagePlace.Corner => T("at a corner"),
        DamagePlace.Bottom => T("at the bottom"),
        DamagePlace.Inside => T("inside"),
        DamagePlace.Whole => T("all over"),
    };

    public static string Of(DamageManner manner) => manner switch
    {
        DamageManner.Crushed => T("crushed"),
        DamageManner.Punctured => T("punctured"),
        DamageManner.Shifted => T("shifted on its platform"),
        DamageManner.Wet => T("wet"),
        DamageManner.Broken => T("broken"),
        DamageManner.Torn => T("torn"),
        DamageManner.Other => T("otherwise"),
    };

    /// <summary>"2 × A1: damaged, crushed at a corner, found after the receipt was signed. Two cartons."</summary>
    public static string Of(UnitOutcome unit)
    {
        var text = $"{unit.Count} × {unit.Reference}: {Of(unit.Kind)}";
        if (unit is { Where: { } where, How: { } how })
            text += $", {Of(how)} {Of(where)}";
        if (unit.Concealed)
            text += T(", found after the receipt was signed");
        if (unit.CarriedFreight is { } carried)
            text += carried ? T(", with freight on top") : T(", with nothing on top");
        return unit.Note is { } note ? $"{text}. {note}" : text;
    }
}
