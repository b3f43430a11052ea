using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Inspections;

/// <summary>One thing that is not as it was declared.</summary>
/// <param name="Subject">The field, named as in the API: "outer.height", "grossWeight", "protection.wrapTurns".</param>
/// <param name="Declared">As a person reads it.</param>
/// <param name="Measured">As a person reads it.</param>
/// <param name="Apart">How much more was measured than declared; less when negative. Null for what is no figure.</param>
/// <param name="Allowed">The tolerance that it is past; null for what is no figure.</param>
public sealed record Difference(string Subject, Phrase Declared, Phrase Measured, Quantity? Apart, Quantity? Allowed);
