using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>What is in a crate is braced, or it batters the crate from inside.</summary>
public static class CrateRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check.Unit.Contents is not CrateContents { Braced: false })
            yield break;
        yield return check.Find(
            FindingCodes.Unbraced,
            check.Rules.Contents.UnbracedSeverity,
            "contents.braced",
            Quantity.Pieces(0),
            Quantity.Pieces(1),
            Basis.CommonPractice("what is in a crate is blocked and braced"),
            $"What is in the crate is not declared braced: it moves at every brake and bend, and batters the boards from inside.",
            $"Block and brace it on all sides, and say so.");
    }
}
