using System.Xml.Linq;
using Marten;
using Microsoft.AspNetCore.DataProtection.Repositories;

namespace Fettle.Web.Identity;

/// <summary>A key that cookies and form tokens are protected with.</summary>
public sealed record DataProtectionKey(string Id, string Xml);

/// <summary>Data-protection keys in PostgreSQL: every node reads the same cookies, and a restart signs nobody out.</summary>
public sealed class KeyRing(IDocumentStore store) : IXmlRepository
{
    // The framework asks synchronously, at start and when a key is made; Marten answers asynchronously only.
    public IReadOnlyCollection<XElement> GetAllElements() => Task.Run(async () =>
    {
        await using var session = store.QuerySession();
        var keys = await session.Query<DataProtectionKey>().ToListAsync();
        return keys.Select(key => XElement.Parse(key.Xml)).ToList();
    }).GetAwaiter().GetResult();

    public void StoreElement(XElement element, string friendlyName) => Task.Run(async () =>
    {
        await using var session = store.LightweightSession();
        session.Insert(new DataProtectionKey(friendlyName, element.ToString(SaveOptions.DisableFormatting)));
        await session.SaveChangesAsync();
    }).GetAwaiter().GetResult();
}
