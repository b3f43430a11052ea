using Fettle.Web;
using Fettle.Web.Api;
using Fettle.Web.Areas;
using Fettle.Web.Declarations;
using Fettle.Web.Demo;
using Fettle.Web.Evidence;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Pickups;
using Fettle.Web.Scorecards;
using Fettle.Web.Store;
using Fettle.Web.Store.Migrations;

if (args is ["migration", var what, ..])
    return await MigrationWriter.RunAsync(what);
if (args is ["verify", .. var asked])
    return VerifyCommand.Run(asked, Console.Out);

var migrates = args is ["migrate", ..];
var builder = WebApplication.CreateBuilder(args);
builder.Configuration.AddCommandLine(args, new Dictionary<string, string> { ["--role"] = "Fettle:Role" });
if (Settings.Read(builder.Configuration) is not { } settings)
    return 1;

await using var database = await Database.OpenAsync(builder, settings, migrates);
if (database is null)
    return 1;
if (migrates)
{
    Console.WriteLine("The schema is up to date.");
    return 0;
}

if (args is ["rebuild-scorecards", ..])
    return await ScorecardRebuild.RunAsync(database.ConnectionString);

builder.Services.AddSingleton(settings);
builder.Services.AddSingleton(TimeProvider.System);
builder.Services.AddStore(database.ConnectionString, migrate: database.IsPrivate || builder.Environment.IsDevelopment());
builder.Services.AddJobs(database.ConnectionString, settings.RunsJobs);
builder.Services.AddDeclarations();
builder.Services.AddPickups();
builder.Services.AddRuleSets();
builder.Services.AddBuildSheets();
builder.Services.AddCatalogue();
builder.Services.AddHolds();
builder.Services.AddPapers();
builder.Services.AddInspections();
builder.Services.AddDockVisits();
builder.Services.AddOutcomes();
builder.Services.AddClaims();
builder.Services.AddEvidence();
builder.Services.AddScorecards();
builder.Services.AddFloorUse();
builder.Services.AddNotices(database.DataFolder);
builder.Services.AddPeople();
builder.Services.AddPages(settings);
builder.Services.AddApi();
builder.Services.AddDemo(settings, database.IsPrivate);
builder.AddRunning();

var app = builder.Build();
app.UsePages();
app.MapPages();
app.MapApi();
app.MapHealth();
return await app.RunToEndAsync();

/// <summary>Named so that tests can start the whole portal.</summary>
public sealed partial class Program;
