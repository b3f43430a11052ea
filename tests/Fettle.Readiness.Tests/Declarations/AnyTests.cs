using System.Collections.Concurrent;
using CsCheck;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.Tests.Findings;

namespace Fettle.Readiness.Tests.Declarations;

/// <summary>A property proves little when what it is about never happens.</summary>
public class AnyTests
{
    [Fact]
    public void Freight_made_up_at_random_has_every_finding_and_every_verdict()
    {
        var seen = new ConcurrentDictionary<string, int>();
        var verdicts = new ConcurrentDictionary<Verdict, int>();
        Gen.Select(Gen.Frequency((6, Any.Pallet), (2, Any.LooseCarton), (5, Any.Other), (1, Any.Allowed)), Any.Lane).Sample(
            (unit, lane) =>
            {
                var result = unit.Check(lane);
                verdicts.AddOrUpdate(result.Verdict, 1, (_, n) => n + 1);
                foreach (var code in result.Codes().Distinct())
                    seen.AddOrUpdate(code, 1, (_, n) => n + 1);
            },
            iter: 6000,
            print: Any.Print);
        // What concerns a whole pickup is no unit's finding; what an inspection finds is in no declaration.
        Assert.Equal(FindingCodesTests.All.Except([FindingCodes.DriverOffDock, FindingCodes.DamageSeen, FindingCodes.StackTest]).Order(), seen.Keys.Order());
        Assert.All(Enum.GetValues<Verdict>(), verdict => Assert.True(verdicts[verdict] > 30, $"{verdict}: {verdicts.GetValueOrDefault(verdict)} of 6,000"));
    }
}
