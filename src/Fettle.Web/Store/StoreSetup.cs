using System.Text.Json;
using System.Text.Json.Serialization;
using Fettle.Web.Api;
using Fettle.Web.Boards;
using Fettle.Web.Catalogue;
using Fettle.Web.Declarations;
using Fettle.Web.Demo;
using Fettle.Web.DockVisits;
using Fettle.Web.Evidence;
using Fettle.Web.FloorUse;
using Fettle.Web.HandlingUnits;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Fettle.Web.Inspections;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.Photos;
using Fettle.Web.Pickups;
using Fettle.Web.RuleSets;
using Fettle.Web.Scorecards;
using JasperFx;
using JasperFx.Events;
using Marten;
using Weasel.Core;

namespace Fettle.Web.Store;

/// <summary>How Fettle's documents and events are kept in PostgreSQL. Each concept configures its own types; they are listed here.</summary>
public static class StoreSetup
{
    public const string Schema = "fettle";

    /// <param name="migrate">Tables follow the code by themselves, for whoever is changing documents; else only migrations change them.</param>
    public static IServiceCollection AddStore(this IServiceCollection services, string connectionString, bool migrate)
    {
        services.AddMarten(options =>
        {
            options.Connection(connectionString);
            Configure(options);
            options.AutoCreateSchemaObjects = migrate ? AutoCreate.CreateOrUpdate : AutoCreate.None;
        }).UseLightweightSessions();
        return services;
    }

    /// <summary>Everything that shapes the schema; also what the migrations are compared with.</summary>
    public static void Configure(StoreOptions options)
    {
        options.DatabaseSchemaName = Schema;
        options.UseSystemTextJsonForSerialization(EnumStorage.AsString, Casing.CamelCase, json =>
        {
            json.DefaultIgnoreCondition = JsonIgnoreCondition.Never;
        });
        options.Events.EventNamingStyle = EventNamingStyle.SmarterTypeName;
        PartyStorage.Configure(options);
        UserStorage.Configure(options);
        Draft.Configure(options);
        PickupStorage.Configure(options);
        NumberedUnit.Configure(options);
        HoldStorage.Configure(options);
        InspectionStorage.Configure(options);
        PhotoStorage.Configure(options);
        DockPickup.Configure(options);
        EvidenceChain.Configure(options);
        RuleSetStorage.Configure(options);
        CatalogueEntry.Configure(options);
        DockVisitStorage.Configure(options);
        ScorecardStorage.Configure(options);
        PickupFloorUse.Configure(options);
        Notice.Configure(options);
        DemoLoad.Configure(options);
        RememberedAnswer.Configure(options);
    }
}
