using System.Globalization;
using Fettle.Benchmarks;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

if (args is ["http", ..])
{
    await HttpTimes.RunAsync();
    return;
}

var declaration = TroubledPickup.Declared;
var rules = RuleSet.BuiltIn;

void Checks()
{
    foreach (var unit in declaration.HandlingUnits)
        ReadinessCheck.Run(unit, declaration.Lane, rules);
}

void Full()
{
    foreach (var unit in declaration.HandlingUnits)
    {
        var result = ReadinessCheck.Run(unit, declaration.Lane, rules);
        AlternativeFinder.Find(unit, result, declaration.Lane, rules, UnitCosts.Default);
    }
}

foreach (var unit in declaration.HandlingUnits)
{
    var result = ReadinessCheck.Run(unit, declaration.Lane, rules);
    var search = AlternativeFinder.Find(unit, result, declaration.Lane, rules, UnitCosts.Default);
    Console.WriteLine($"{unit.Reference} {result.Verdict} [{string.Join(", ", result.Findings.Select(f => $"{f.Code}:{f.Severity}"))}]");
    foreach (var a in search.Alternatives)
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"    {a.Key}: {a.Summary} | {a.Cost.Total} {a.Verdict} cures {string.Join(",", a.Cures)} left [{string.Join(",", a.Results.SelectMany(r => r.Findings).Select(f => f.Code + ":" + f.Severity))}]"));
    if (search.Blocked is { } b)
        Console.WriteLine($"    blocked: {b}");
}

Console.WriteLine(Percentiles.Milliseconds(Checks, 50, 300));
Console.WriteLine(Percentiles.Milliseconds(Full, 10, 100));

foreach (var unit in declaration.HandlingUnits)
{
    var result = ReadinessCheck.Run(unit, declaration.Lane, rules);
    Console.WriteLine($"{unit.Reference} {Percentiles.Milliseconds(() => AlternativeFinder.Find(unit, result, declaration.Lane, rules, UnitCosts.Default), 10, 100)}  check {Percentiles.Milliseconds(() => ReadinessCheck.Run(unit, declaration.Lane, rules), 10, 100)}");
}
