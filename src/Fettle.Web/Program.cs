using Fettle.Web;
using Fettle.Web.Api;
using Fettle.Web.Areas;
using Fettle.Web.Declarations;
using Fettle.Web.Demo;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Pickups;
using Fettle.Web.Store;

var builder = WebApplication.CreateBuilder(args);
builder.Configuration.AddCommandLine(args, new Dictionary<string, string> { ["--role"] = "Fettle:Role" });
var settings = builder.Configuration.GetSection("Fettle").Get<Settings>() ?? new();

await using var database = await Database.OpenAsync(builder, settings);
if (database is null)
    return 1;

builder.Services.AddSingleton(settings);
builder.Services.AddSingleton(TimeProvider.System);
builder.Services.AddStore(database.ConnectionString, database.Migrates);
builder.Services.AddJobs(database.ConnectionString, settings.RunsJobs);
builder.Services.AddDeclarations();
builder.Services.AddPickups();
builder.Services.AddHolds();
builder.Services.AddNotices(database.DataFolder);
builder.Services.AddPeople();
builder.Services.AddPages(settings);
builder.Services.AddApi();
builder.Services.AddDemo(settings, database.IsPrivate);

var app = builder.Build();
app.UsePages();
app.MapPages();
app.MapApi();
app.MapHealth();
await app.RunAsync();
return 0;

/// <summary>Named so that tests can start the whole portal.</summary>
public sealed partial class Program;
