namespace Fettle.Web.Drawings;

/// <summary>Where a drawing will be looked at.</summary>
/// <param name="OnWhite">
/// Fixed light colours on a white ground and a named font, for mail and paper. Otherwise the ground shows through and text
/// takes the page's colour and font, so that the page's style sheet has the last word.
/// </param>
public sealed record DrawingOptions(bool OnWhite)
{
    public static readonly DrawingOptions ForPage = new(false);

    public static readonly DrawingOptions ForMail = new(true);
}
