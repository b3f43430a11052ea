using Fettle.Engineering.Units;

namespace Fettle.Engineering.Cartons;

/// <summary>
/// The most that a carton and its contents may weigh by the grade of its board, under the carriers' classification (rule 41,
/// item 222) as two trade tables have it. A rule about packages that a carrier may hold against a claim; it says nothing of
/// what a stack can bear, which is <see cref="McKee"/>. See docs/engineering/carton-compression.md.
/// </summary>
public static class GradeLimit
{
    // 44 and 55 single wall, and 82 double wall where one table misprints 55, are from memory.
    private static readonly (double EdgeCrush, double Pounds)[] SingleWall = [(23, 20), (26, 35), (29, 50), (32, 65), (40, 80), (44, 95), (55, 120)];

    private static readonly (double EdgeCrush, double Pounds)[] DoubleWall = [(42, 80), (48, 100), (51, 120), (61, 140), (71, 160), (82, 180)];

    // From memory.
    private static readonly (double EdgeCrush, double Pounds)[] TripleWall = [(67, 240), (80, 260), (90, 280), (112, 300)];

    /// <summary>
    /// The greatest gross mass for a board: that of the highest grade it reaches. Null below the lowest grade of its wall.
    /// </summary>
    public static Mass? GreatestGross(Board board) => Of(FluteProfile.IsDoubleWall(board.Flute) ? DoubleWall : SingleWall, board.EdgeCrush);

    /// <summary>The same for triple-wall board, for which there are no flutes here: its cartons are bins, and McKee's formula is not for them.</summary>
    /// <param name="edgeCrush">Edge crush in lb/in.</param>
    public static Mass? GreatestGrossTripleWall(double edgeCrush) => Of(TripleWall, edgeCrush);

    private static Mass? Of((double EdgeCrush, double Pounds)[] grades, double reached)
    {
        Mass? greatest = null;
        foreach (var (edgeCrush, pounds) in grades)
        {
            if (reached >= edgeCrush)
                greatest = Mass.FromPounds(pounds);
        }

        return greatest;
    }
}
