using JasperFx.Metadata;
using Marten;

namespace Fettle.Web.Identity;

public enum Role
{
    ShipperClerk,
    TerminalReviewer,
    AccountManager,
    Administrator,
}

/// <summary>What a person or an API key may see and do: a role, and the party it is tied to.</summary>
public sealed record Rights(
    Role Role,
    Guid? ShipperId,
    IReadOnlyList<Guid> SiteIds,
    Guid? CarrierId,
    IReadOnlyList<Guid> TerminalIds,
    IReadOnlyList<Guid> AccountShipperIds)
{
    public static Rights ShipperClerk(Guid shipperId, params IReadOnlyList<Guid> siteIds) => new(Role.ShipperClerk, shipperId, siteIds, null, [], []);

    public static Rights TerminalReviewer(Guid carrierId, params IReadOnlyList<Guid> terminalIds) => new(Role.TerminalReviewer, null, [], carrierId, terminalIds, []);

    public static Rights AccountManager(Guid carrierId, params IReadOnlyList<Guid> shipperIds) => new(Role.AccountManager, null, [], carrierId, [], shipperIds);

    /// <summary>Looks after the whole portal when <paramref name="carrierId"/> is null.</summary>
    public static Rights Administrator(Guid? carrierId) => new(Role.Administrator, null, [], carrierId, [], []);
}

/// <summary>A person who signs in.</summary>
public sealed class User : IVersioned
{
    public Guid Id { get; set; }

    /// <summary>The sign-in name, an e-mail address.</summary>
    public required string UserName { get; set; }

    public string NormalizedUserName { get; set; } = "";

    /// <summary>What others see: "Maya Ortiz".</summary>
    public required string Name { get; set; }

    public required Rights Rights { get; set; }

    /// <summary>Code of the language that this person chose, "es"; null to follow the browser.</summary>
    public string? Language { get; set; }

    public string? PasswordHash { get; set; }

    public string SecurityStamp { get; set; } = "";

    public DateTimeOffset? LockoutEnd { get; set; }

    public int AccessFailedCount { get; set; }

    /// <summary>May no longer sign in; kept for the record of what was done.</summary>
    public bool Disabled { get; set; }

    /// <summary>Sign-in made by the demo loader, shown on the sign-in page.</summary>
    public bool Demo { get; set; }

    public Guid Version { get; set; }
}

/// <summary>How people, API keys and data-protection keys are kept.</summary>
public static class UserStorage
{
    public static void Configure(StoreOptions marten)
    {
        marten.Schema.For<User>().UniqueIndex(user => user.NormalizedUserName);
        marten.Schema.For<ApiKey>().UniqueIndex(key => key.Hash);
        marten.Schema.For<ApiKeyUse>();
        marten.Schema.For<DataProtectionKey>();
    }
}
