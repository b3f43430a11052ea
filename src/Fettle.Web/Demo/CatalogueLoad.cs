using Fettle.Engineering.Units;
using Fettle.Readiness.Catalogue;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Catalogue;
using Fettle.Web.Declarations;
using Fettle.Web.Store;

namespace Fettle.Web.Demo;

/// <summary>The catalogues of shippers that keep one: each build of theirs that passes on their first lane, its carton and its pallet.</summary>
public static class CatalogueLoad
{
    public static IEnumerable<CatalogueEntry> Entries(Scenario scenario, DateTimeOffset at)
    {
        foreach (var shipper in scenario.Shippers.Where(shipper => shipper.KeepsCatalogue))
        {
            var lane = shipper.Lanes[0];
            var decks = new HashSet<Platform>();
            foreach (var made in shipper.Builds.Where(build => !build.IsHeld))
            {
                var form = new PickupForm
                {
                    Units = "imperial",
                    Lane = new() { Miles = Writing.Text(lane.Miles), Transfers = Writing.Text(lane.Transfers) },
                    HandlingUnits = [FormText.Copy(made.Unit) with { Reference = "A1", Quantity = "1" }],
                };
                var reading = Reading.Of(form);
                var carrier = scenario.TerminalOf(lane).Carrier.Id;
                if (reading.Lines[0] is not { } unit || StandardBuild.Of(unit, reading.Lane!, carrier, RuleSet.BuiltIn, at) is not { } build)
                    continue;
                yield return Entry(CatalogueKind.Build, made.Name, build: build);
                if (unit.Contents is CartonContents cartons)
                    yield return Entry(CatalogueKind.Carton, made.Name.Split(',')[0], carton: cartons.Carton);
                if (unit.Platform is { } deck && decks.Add(deck))
                    yield return Entry(CatalogueKind.Platform, $"{Deck(deck)}, {(deck.Rating is { } rating ? $"rated {Writing.Text(rating.Pounds)} lb" : "not rated")}", platform: deck);
            }

            CatalogueEntry Entry(CatalogueKind kind, string name, StandardBuild? build = null, Carton? carton = null, Platform? platform = null) => new()
            {
                Id = StableId.From("demo", "catalogue", shipper.Name, kind, name),
                ShipperId = shipper.Id,
                SiteId = shipper.SiteId(lane.From),
                Kind = kind,
                Name = name,
                Build = build,
                Carton = carton,
                Platform = platform,
                ChangedBy = scenario.ClerkAt(shipper, lane.From).Actor,
                ChangedAt = at,
            };
        }
    }

    private static string Deck(Platform deck) => $"{Writing.Text(deck.Length.In(UnitSystem.Imperial))} × {Writing.Text(deck.Width.In(UnitSystem.Imperial))} {deck.Material.ToString().ToLowerInvariant()}";
}
