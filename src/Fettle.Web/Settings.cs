using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Scorecards;

namespace Fettle.Web;

/// <summary>What can be configured, under "Fettle" in appsettings, the environment (Fettle__Smtp__Host) or the command line.</summary>
public sealed class Settings
{
    /// <summary>web: pages and API. worker: background jobs. both: everything in one process, the default. Also --role.</summary>
    public string Role { get; set; } = "both";

    /// <summary>The address that links in mails begin with.</summary>
    public string PublicUrl { get; set; } = "http://localhost:5180";

    public DatabaseSettings Database { get; set; } = new();

    public SmtpSettings Smtp { get; set; } = new();

    public JobSettings Jobs { get; set; } = new();

    public DemoSettings Demo { get; set; } = new();

    public RetentionSettings Retention { get; set; } = new();

    public SignInSettings SignIn { get; set; } = new();

    public ClaimSettings Claims { get; set; } = new();

    public WorthSettings Worth { get; set; } = new();

    public DigestSettings Digest { get; set; } = new();

    /// <summary>What platforms, film, boards and minutes cost, by which alternatives are ranked.</summary>
    public UnitCosts Costs { get; set; } = new();

    /// <summary>
    /// Addresses (10.0.0.7) or networks (10.0.0.0/8) of reverse proxies whose X-Forwarded-For, -Proto and -Host are believed.
    /// Empty, the default: nobody's are.
    /// </summary>
    public IReadOnlyList<string> Proxies { get; set; } = [];

    /// <summary>Reads what was configured. Null when it cannot be used, or names what there is not; why has been said on the console.</summary>
    public static Settings? Read(IConfiguration configuration)
    {
        Settings settings;
        try
        {
            settings = configuration.GetSection("Fettle").Get<Settings>(binder => binder.ErrorOnUnknownConfiguration = true) ?? new();
        }
        catch (InvalidOperationException e)
        {
            Console.Error.WriteLine($"The settings under Fettle cannot be read: {e.Message}");
            return null;
        }

        var wrong = SettingsValidator.Instance.Validate(settings).Errors;
        foreach (var error in wrong)
            Console.Error.WriteLine(error.ErrorMessage);
        return wrong.Count == 0 ? settings : null;
    }

    public bool RunsWeb => !string.Equals(Role, "worker", StringComparison.OrdinalIgnoreCase);

    public bool RunsJobs => !string.Equals(Role, "web", StringComparison.OrdinalIgnoreCase);
}

/// <summary>How long photos and mails of pickups are kept.</summary>
public sealed class RetentionSettings
{
    /// <summary>
    /// Whole years, 1 to 100, counted from the newest record of a pickup: earlier nothing is removed. Null: nothing is ever
    /// removed. Records of who declared and decided what stay for as long as the database does.
    /// </summary>
    public int? Years { get; set; }
}

public sealed class SignInSettings
{
    /// <summary>Tries to sign in a minute, all names together, from one address and on one node: a dock office of many people may share one.</summary>
    public int TriesForOneAddress { get; set; } = 60;
}

public sealed class ClaimSettings
{
    /// <summary>Days besides Saturdays and Sundays that are no business days, as 2027-07-05; deadlines of claims skip them.</summary>
    public IReadOnlyList<DateOnly> Holidays { get; set; } = [];
}

/// <summary>What is taken for granted when trailer feet become money; printed beside every such figure.</summary>
public sealed class WorthSettings
{
    /// <summary>
    /// What a mile of a whole trailer costs the carrier, US dollars, 0 to 1,000. The default is a round figure of ours and has
    /// no source: set your own.
    /// </summary>
    public decimal CostPerTrailerMile { get; set; } = 2.50m;

    /// <summary>The share of what stacking saves that is offered back to the shipper, 0 to 1. The default is our choice.</summary>
    public double ShareOffered { get; set; } = .3;

    public WorthTerms Terms => new(CostPerTrailerMile, ShareOffered);
}

/// <summary>The mail of Monday morning about the week before.</summary>
public sealed class DigestSettings
{
    /// <summary>False: nobody gets it.</summary>
    public bool Weekly { get; set; } = true;

    /// <summary>IANA name of the time zone in which it is Monday, 06:00, when it is written.</summary>
    public string TimeZone { get; set; } = "UTC";
}

/// <summary>A connection string named "Fettle" (ConnectionStrings__Fettle) switches the private server off.</summary>
public sealed class DatabaseSettings
{
    /// <summary>Data folder of the private server; null picks one for this checkout.</summary>
    public string? DataFolder { get; set; }

    /// <summary>Folder with postgres, initdb and pg_ctl; null searches the usual places.</summary>
    public string? BinFolder { get; set; }

    /// <summary>Bring the schema up to date at start. Null: yes on the private server, no on a configured one.</summary>
    public bool? Migrate { get; set; }
}

public sealed class SmtpSettings
{
    /// <summary>Null: mail is written to a folder and can be read in the portal.</summary>
    public string? Host { get; set; }

    public int Port { get; set; } = 587;

    public string? User { get; set; }

    public string? Password { get; set; }

    /// <summary>auto, none, starttls or tls.</summary>
    public string Security { get; set; } = "auto";

    /// <summary>Seconds that the mail server may take for one step; four times as long for all of them together. After that it counts as down.</summary>
    public int PatienceSeconds { get; set; } = 30;

    public string From { get; set; } = "Fettle <fettle@fettle.example>";

    /// <summary>Where mail goes without a host; null picks a folder beside the database's.</summary>
    public string? Folder { get; set; }
}

public sealed class JobSettings
{
    /// <summary>How often work is looked for that nobody is doing, in seconds, 1 to 59.</summary>
    public int SweepSeconds { get; set; } = 15;

    /// <summary>
    /// Seconds that a node may need for one mail besides sending it. After these and what the mail server may take,
    /// another node takes the mail up: the first must have died.
    /// </summary>
    public int WritingSeconds { get; set; } = 60;
}

public sealed class DemoSettings
{
    /// <summary>Load the demo scenario into an empty database. Null: yes on the private server, no on a configured one.</summary>
    public bool? Load { get; set; }

    /// <summary>API key of one shipper; null makes one and prints it.</summary>
    public string? ShipperKey { get; set; }

    public string? TerminalKey { get; set; }

    public string? AccountKey { get; set; }
}
