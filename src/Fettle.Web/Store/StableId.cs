using System.Security.Cryptography;
using System.Text;

namespace Fettle.Web.Store;

/// <summary>
/// Ids that follow from what they stand for, so that doing the same thing twice, from two jobs or after a crash, meets
/// itself in the database instead of making a second one.
/// </summary>
public static class StableId
{
    /// <summary>The same parts always give the same id (SHA-256, marked as an RFC 9562 version 8 UUID).</summary>
    public static Guid From(params IReadOnlyList<object> parts)
    {
        var bytes = SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', parts)));
        bytes[6] = (byte)((bytes[6] & 0x0F) | 0x80);
        bytes[8] = (byte)((bytes[8] & 0x3F) | 0x80);
        return new Guid(bytes.AsSpan(0, 16), bigEndian: true);
    }
}
