namespace Fettle.Web.Notices.Letters;

/// <summary>What one mail says, before it is addressed. The same facts give the same letter, byte for byte.</summary>
/// <param name="Subject">One line.</param>
/// <param name="Text">All of it for readers of plain text: nothing is only in the pictures or the HTML.</param>
/// <param name="Pictures">What the HTML refers to by content id.</param>
/// <param name="Calendar">The pickup as an entry for a calendar; null when the letter is not about a time.</param>
public sealed record Letter(string Subject, string Text, string Html, IReadOnlyList<LetterPicture> Pictures, LetterCalendar? Calendar);

/// <param name="ContentId">Without angle brackets; unique by content.</param>
/// <param name="Words">What it shows, for those who do not see it.</param>
/// <param name="Width">Width at which it is shown, in CSS pixels; the PNG has twice as many.</param>
public sealed record LetterPicture(string ContentId, string FileName, ReadOnlyMemory<byte> Png, string Words, int Width);

/// <param name="Content">An iCalendar object (RFC 5545), published rather than asking for an answer: METHOD:PUBLISH (RFC 5546).</param>
public sealed record LetterCalendar(string FileName, string Content);

/// <summary>The names behind a pickup's ids, as they are when the letter is written.</summary>
/// <param name="SiteAddress">Where the truck goes, in one line.</param>
public sealed record PickupNames(string Shipper, string Site, string SiteAddress, string Carrier, string Terminal);
