namespace Fettle.Web.Drawings;

/// <summary>
/// How one kind of thing is painted: a class that a style sheet may restyle, and the attributes that hold without one. An
/// attribute may say <c>INK</c> for the colour of text.
/// </summary>
internal readonly record struct Look(string Class, string Attributes)
{
    private const string Thin = " stroke-width=\"0.7\" stroke-linejoin=\"round\"";
    private const string Brown = " stroke=\"#6b4f26\"" + Thin;
    private const string Red = "#b3261e";

    public static readonly Look Ground = new("fd-ground", "fill=\"#ffffff\"");

    // The platform: boards, and the dark between them.
    public static readonly Look Wood = new("fd-wood", "fill=\"#cbbd9f\" stroke=\"#5f5748\"" + Thin);
    public static readonly Look WoodSide = new("fd-wood-side", "fill=\"#b0a183\" stroke=\"#5f5748\"" + Thin);
    public static readonly Look Plain = new("fd-plain", "fill=\"#aeb6bd\" stroke=\"#4d565e\"" + Thin);
    public static readonly Look PlainSide = new("fd-plain-side", "fill=\"#8d969e\" stroke=\"#4d565e\"" + Thin);
    public static readonly Look Gap = new("fd-gap", "fill=\"#4a4336\" stroke=\"none\"");
    public static readonly Look BoardLine = new("fd-board-line", "fill=\"none\" stroke=\"#7c715c\" stroke-width=\"1.2\"");
    public static readonly Look DeckEdge = new("fd-deck-edge", "fill=\"none\" stroke=\"#3d372c\" stroke-width=\"1.2\" stroke-dasharray=\"4 2.5\"");

    // The load.
    public static readonly Look Carton = new("fd-carton", "fill=\"#f0d9ad\"" + Brown);
    public static readonly Look Turned = new("fd-carton fd-turned", "fill=\"#e2bf83\"" + Brown);
    public static readonly Look Seam = new("fd-seam", "fill=\"none\" stroke=\"#a67c3d\" stroke-width=\"1.4\" stroke-linecap=\"round\"");
    public static readonly Look Top = new("fd-top", "fill=\"#f4e1bb\"" + Brown);
    public static readonly Look Side = new("fd-side", "fill=\"#dcb87a\"" + Brown);
    public static readonly Look End = new("fd-end", "fill=\"#c49c5b\"" + Brown);
    public static readonly Look OtherSide = new("fd-side fd-other", "fill=\"#cfa766\"" + Brown);
    public static readonly Look OtherEnd = new("fd-end fd-other", "fill=\"#b58c4c\"" + Brown);
    public static readonly Look Depth = new("fd-depth", "fill=\"#7d5f30\" stroke=\"none\"");
    public static readonly Look BoxLine = new("fd-box-line", "fill=\"none\" stroke=\"#8a6732\" stroke-width=\"0.9\"");

    // What is put round it.
    public static readonly Look Film = new("fd-film", "fill=\"#8ec5f2\" fill-opacity=\"0.2\" stroke=\"#2f78b7\" stroke-width=\"0.8\"");
    public static readonly Look FilmLine = new("fd-film-line", "fill=\"none\" stroke=\"#ffffff\" stroke-opacity=\"0.75\" stroke-width=\"0.9\"");
    public static readonly Look Board = new("fd-corner-board", "fill=\"#3f7f72\" stroke=\"#1f4a42\"" + Thin);
    public static readonly Look Sleeve = new("fd-sleeve", "fill=\"#cdb08a\" fill-opacity=\"0.88\" stroke=\"#6b4f26\"" + Thin);
    public static readonly Look SleeveLine = new("fd-sleeve-line", "fill=\"none\" stroke=\"#a5875c\" stroke-width=\"0.5\"");
    public static readonly Look Cap = new("fd-cap", "fill=\"#fbf6ea\" stroke=\"#6b4f26\"" + Thin);
    public static readonly Look SlipSheet = new("fd-slip-sheet", "fill=\"none\" stroke=\"#ffffff\" stroke-width=\"1.3\"");
    public static readonly Look Strap = new("fd-strap", "fill=\"none\" stroke=\"#23272b\" stroke-width=\"2\"");

    // A trailer, and what stands in it.
    public static readonly Look Room = new("fd-room", "fill=\"#f3f4f1\" stroke=\"#3d372c\" stroke-width=\"1.6\"");
    public static readonly Look Below = new("fd-below", "fill=\"#e7e5dd\" stroke=\"#b9b4a6\" stroke-width=\"0.6\"");
    public static readonly Look OnFloor = new("fd-on-floor", "fill=\"#e9d3a6\"" + Brown);
    public static readonly Look OnUnit = new("fd-on-unit", "fill=\"#a9cfc4\" stroke=\"#1f4a42\"" + Thin);
    public static readonly Look OnDeck = new("fd-on-deck", "fill=\"#b5cfe6\" stroke=\"#24557f\"" + Thin);
    public static readonly Look OnTop = new("fd-on-top", "fill=\"#fbf6ea\" stroke=\"#6b4f26\"" + Thin);
    public static readonly Look Beam = new("fd-beam", "fill=\"none\" stroke=\"#24557f\" stroke-width=\"2.4\"");
    public static readonly Look UsedLine = new("fd-used", "fill=\"none\" stroke=\"INK\" stroke-width=\"1.4\" stroke-dasharray=\"5 3\"");
    public static readonly Look UnitNumber = new("fd-unit-number", "fill=\"#24292f\" font-size=\"11\"");

    // What is wrong, and what is measured.
    public static readonly Look Over = new("fd-over", $"fill=\"{Red}\" fill-opacity=\"0.22\" stroke=\"{Red}\" stroke-width=\"0.8\"");
    public static readonly Look OverHatch = new("fd-over-hatch", $"fill=\"none\" stroke=\"{Red}\" stroke-width=\"1.1\"");
    public static readonly Look FilmEnd = new("fd-film-end", $"fill=\"none\" stroke=\"{Red}\" stroke-width=\"1.6\" stroke-dasharray=\"3 2\"");
    public static readonly Look Measure = new("fd-measure", "fill=\"none\" stroke=\"INK\" stroke-width=\"0.7\"");
    public static readonly Look Fork = new("fd-fork", "fill=\"INK\" stroke=\"none\"");
    public static readonly Look Tag = new("fd-tag", "fill=\"#ffffff\" stroke=\"#57606a\" stroke-width=\"0.6\"");
    public static readonly Look OverTag = new("fd-tag fd-over-tag", $"fill=\"#ffffff\" stroke=\"{Red}\" stroke-width=\"1\"");

    public static readonly Look Text = new("fd-text", "fill=\"INK\" font-size=\"11\"");
    public static readonly Look Strong = new("fd-text fd-strong", "fill=\"INK\" font-size=\"11.5\" font-weight=\"bold\"");
    public static readonly Look TagText = new("fd-tag-text", "fill=\"#24292f\" font-size=\"10\"");
    public static readonly Look OverTagText = new("fd-tag-text fd-over-text", $"fill=\"{Red}\" font-size=\"10.5\" font-weight=\"bold\"");
    public static readonly Look Count = new("fd-count", "fill=\"#1f2328\" font-size=\"11\" font-weight=\"bold\"");
    public static readonly Look Label = new("fd-label", "fill=\"#ffffff\" stroke=\"#000000\" stroke-width=\"0.9\"");
    public static readonly Look LabelBars = new("fd-label-bars", "fill=\"none\" stroke=\"#000000\" stroke-width=\"0.5\"");
    public static readonly Look Wrong = new("fd-text fd-wrong", $"fill=\"{Red}\" font-size=\"11.5\" font-weight=\"bold\"");
}
