using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Rules;

/// <summary>About the pickup as a whole: a driver who is kept off the dock has not seen how the freight was loaded.</summary>
public static class ProofRule
{
    public static IEnumerable<Finding> Check(Declaration declaration, RuleSet rules)
    {
        if (declaration.DriverOnDock)
            yield break;
        var (measured, limit) = (Quantity.Pieces(0), Quantity.Pieces(rules.Proof.Photos));
        yield return new(
            FindingCodes.DriverOffDock,
            rules.Proof.Severity,
            "driverOnDock",
            measured,
            limit,
            Basis.Standard("49 USC 80113(c), shipper's weight, load and count"),
            Phrase.Of($"The driver is kept off the dock and never sees how the freight is built and loaded. The papers then say 'shipper's load and count', and the carrier does not answer for loading it did not see."),
            Phrase.Of($"Let the driver see the freight; else photograph all {rules.Proof.Photos} sides of every unit, and print 'shipper's load and count' on the bill of lading."),
            Finding.Comparison(measured, limit),
            rules.Identity);
    }
}
