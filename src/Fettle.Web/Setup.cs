using Fettle.Web.Boards;
using Fettle.Web.BuildSheets;
using Fettle.Web.Catalogue;
using Fettle.Web.Claims;
using Fettle.Web.DockVisits;
using Fettle.Web.Evidence;
using Fettle.Web.FloorUse;
using Fettle.Web.Holds;
using Fettle.Web.Inspections;
using Fettle.Web.Negotiations;
using Fettle.Web.Notices;
using Fettle.Web.Outcomes;
using Fettle.Web.Papers;
using Fettle.Web.Pickups;
using Fettle.Web.RuleSets;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web;

/// <summary>What each concept registers, a line or two each.</summary>
public static class Setup
{
    /// <summary>A hundred lines of a declaration are some 3,500 fields; the framework's default is 1,024.</summary>
    private const int MostFields = 20_000;

    public static IServiceCollection AddDeclarations(this IServiceCollection services) => services
        .AddSingleton(provider => provider.GetRequiredService<Settings>().Costs)
        .Configure<FormOptions>(options => options.ValueCountLimit = MostFields)
        // Over its limit on lists the framework throws; over ours a form is refused in words.
        .Configure<MvcOptions>(options => options.MaxModelBindingCollectionSize = MostFields);

    public static IServiceCollection AddPickups(this IServiceCollection services) => services.AddSingleton<Submission>();

    public static IServiceCollection AddRuleSets(this IServiceCollection services) => services.AddSingleton<CarrierRuleBook>();

    public static IServiceCollection AddBuildSheets(this IServiceCollection services) => services.AddSingleton<BuildSheetDesk>();

    public static IServiceCollection AddCatalogue(this IServiceCollection services) => services.AddSingleton<CatalogueDesk>();

    public static IServiceCollection AddDockVisits(this IServiceCollection services) => services.AddSingleton<DockVisitDesk>();

    public static IServiceCollection AddHolds(this IServiceCollection services) => services.AddSingleton<HoldDesk>().AddSingleton<BoardDesk>();

    public static IServiceCollection AddInspections(this IServiceCollection services) => services.AddSingleton<InspectionDesk>();

    public static IServiceCollection AddClaims(this IServiceCollection services) => services.AddSingleton<ClaimDesk>();

    public static IServiceCollection AddOutcomes(this IServiceCollection services) => services.AddSingleton<OutcomeDesk>();

    public static IServiceCollection AddPapers(this IServiceCollection services) => services.AddSingleton<PaperDesk>();

    public static IServiceCollection AddEvidence(this IServiceCollection services) => services.AddSingleton<EvidenceDesk>();

    public static IServiceCollection AddFloorUse(this IServiceCollection services) => services.AddSingleton<FloorUseDesk>().AddSingleton<NegotiationDesk>();

    public static IServiceCollection AddNotices(this IServiceCollection services, string dataFolder) => services
        .AddSingleton<LetterDesk>()
        .AddSingleton(provider =>
        {
            var smtp = provider.GetRequiredService<Settings>().Smtp;
            return new Post(smtp, smtp.Folder ?? Path.Combine(dataFolder, "mail"));
        });

    /// <summary>For load balancers and containers: the process answers and reaches its database.</summary>
    public static void MapHealth(this WebApplication app) =>
        app.MapGet("/health", async (Marten.IDocumentStore store, CancellationToken cancel) =>
        {
            await using var session = store.QuerySession();
            await session.QueryAsync<int>("select 1", cancel);
            return TypedResults.Text("ready");
        }).AllowAnonymous().DisableAntiforgery();
}
