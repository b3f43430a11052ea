using System.Globalization;
using System.Text;
using Fettle.Web.Identity;

namespace Fettle.Web.Demo;

/// <summary>What is printed at the end of a start with the demo: where the portal is and how to come in.</summary>
public static class Welcome
{
    public static string Text(Scenario scenario, IReadOnlyList<ToldKey> keys, IReadOnlyCollection<string> addresses)
    {
        var people = scenario.People;
        var width = people.People.Max(person => person.UserName.Length) + 2;
        var text = new StringBuilder();
        text.AppendLine().AppendLine(CultureInfo.InvariantCulture, $"  Fettle is at {string.Join(" and ", addresses.Select(Reachable))}");
        text.AppendLine().AppendLine(CultureInfo.InvariantCulture, $"  Sign-ins of the demo (invented firms and people). The password is always:  {people.Password}");
        foreach (var role in people.People.GroupBy(person => person.Rights.Role).OrderBy(role => role.Key))
        {
            text.AppendLine().AppendLine(CultureInfo.InvariantCulture, $"  {Does(role.Key)}");
            foreach (var person in role)
                text.AppendLine(CultureInfo.InvariantCulture, $"    {person.UserName.PadRight(width)}{Whose(scenario, person.Rights)}");
        }

        if (keys.Count > 0)
        {
            text.AppendLine().AppendLine("  API keys, sent as \"Authorization: Bearer <key>\"");
            foreach (var key in keys)
                text.AppendLine(CultureInfo.InvariantCulture, $"    {(key.Plain ?? $"shown at the first start; set Fettle__Demo__{key.Setting} to choose one").PadRight(width)}  {key.Key.Name}");
            if (keys.Any(key => key.Plain is not null))
                text.AppendLine("    A key that was not set is shown this once. Fettle__Demo__ShipperKey, __TerminalKey and __AccountKey set them.");
        }

        return text.ToString();
    }

    /// <summary>An address that a browser can follow: a server that listens everywhere is found at localhost.</summary>
    private static string Reachable(string address) => address
        .Replace("://[::]", "://localhost", StringComparison.Ordinal)
        .Replace("://0.0.0.0", "://localhost", StringComparison.Ordinal)
        .Replace("://+", "://localhost", StringComparison.Ordinal)
        .Replace("://*", "://localhost", StringComparison.Ordinal);

    private static string Does(Role role) => role switch
    {
        Role.ShipperClerk => "Shipper clerks declare freight and hand it in",
        Role.TerminalReviewer => "Terminal reviewers decide about what is held",
        Role.AccountManager => "Account managers see whose freight stacks well, and whose is held",
        Role.Administrator => "Administrators look after people and rules",
    };

    private static string Whose(Scenario scenario, DemoRights rights) => rights.Role switch
    {
        Role.ShipperClerk => $"{rights.Shipper}{(rights.Sites is null ? "" : $", {string.Join(", ", rights.Sites)}")}",
        Role.TerminalReviewer => $"{rights.Carrier}, {string.Join(", ", scenario.TerminalsOf(rights).Select(terminal => terminal.Name))}",
        Role.AccountManager => $"{rights.Carrier}, {rights.Accounts?.Count ?? 0} shippers",
        Role.Administrator => rights.Carrier ?? "the whole portal",
    };
}
