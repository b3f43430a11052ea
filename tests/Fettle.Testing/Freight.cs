using System.Text.Json.Nodes;

namespace Fettle.Testing;

/// <summary>Bodies of API calls: situations with names.</summary>
public static class Freight
{
    /// <summary>Four pallets that nothing is to be said against.</summary>
    public static JsonObject Sound() => Check("""
        {"reference":"A1","quantity":4,"kind":"pallet","platform":{"length":48,"width":40,"height":5.5,"tare":40,"material":"wood","rating":2500},
         "outer":{"length":48,"width":40,"height":53.5},"grossWeight":940,
         "contents":{"kind":"cartons","carton":{"length":16,"width":12,"height":12,"grossWeight":22,"board":{"flute":"C","edgeCrush":44}},"perLayer":10,"layers":4,"stack":"column"},
         "stackable":true,"protection":{"wrapTurns":3,"wrapOverPlatform":true,"cornerBoards":"to-platform","sleeve":true,"topCap":false,"straps":0,"slipSheets":false},"fragile":"none"}
        """);

    /// <summary>One pallet over the deck's edge, over 2,000 lb and thinly wrapped.</summary>
    public static JsonObject Troubled() => Check("""
        {"reference":"B1","quantity":1,"kind":"pallet","platform":{"length":48,"width":40,"height":5.5,"tare":40,"material":"wood","rating":2500},
         "outer":{"length":52,"width":48,"height":77.5},"grossWeight":2056,
         "contents":{"kind":"cartons","carton":{"length":16,"width":12,"height":12,"grossWeight":28,"board":{"flute":"C","edgeCrush":32}},"perLayer":12,"layers":6,"stack":"column"},
         "stackable":true,"protection":{"wrapTurns":1,"wrapOverPlatform":false,"cornerBoards":"none"},"fragile":"none"}
        """);

    /// <summary>For a floor plan: pallets that carry each other, tall ones that carry nothing, loose cartons, and one too tall to go in.</summary>
    public static JsonObject ForFloor() => (JsonObject)JsonNode.Parse("""
        {"units":"imperial","trailer":{"length":630,"width":98.5,"height":108},"decks":false,"handlingUnits":[
         {"reference":"A1","quantity":10,"length":48,"width":40,"height":50,"weight":1000,"stackable":true,"topLoadCapacity":1100,"mayRideOnTop":true,"turnable":true},
         {"reference":"B1","quantity":4,"length":48,"width":48,"height":84,"weight":1400,"stackable":false,"topLoadCapacity":0,"mayRideOnTop":false,"turnable":false},
         {"reference":"C1","quantity":6,"length":16,"width":12,"height":8,"weight":20,"stackable":false,"mayRideOnTop":true},
         {"reference":"D1","quantity":1,"length":40,"width":40,"height":109,"weight":300}]}
        """)!;

    /// <summary>The same freight as a pickup at Millbrook, tomorrow from 14:00 to 16:00 Chicago winter time.</summary>
    public static JsonObject AsPickup(this JsonObject check, DateTimeOffset now, string terminal = "Millbrook")
    {
        var day = now.UtcDateTime.Date.AddDays(1);
        var pickup = (JsonObject)check.DeepClone();
        pickup["terminal"] = terminal;
        pickup["destination"] = "Quillfeather Paper, Saltgrass";
        pickup["window"] = new JsonObject { ["from"] = $"{day:yyyy-MM-dd}T20:00:00Z", ["to"] = $"{day:yyyy-MM-dd}T22:00:00Z" };
        return pickup;
    }

    private static JsonObject Check(string unit) => new()
    {
        ["units"] = "imperial",
        ["lane"] = new JsonObject { ["miles"] = 740, ["transfers"] = 3, ["crossBorder"] = false },
        ["driverOnDock"] = true,
        ["handlingUnits"] = new JsonArray(JsonNode.Parse(unit)),
    };
}
