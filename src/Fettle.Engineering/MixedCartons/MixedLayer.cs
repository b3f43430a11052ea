namespace Fettle.Engineering.MixedCartons;

/// <summary>
/// Cartons of several sizes side by side on a deck, by best fit (Burke, Kendall and Whitwell 2004): the lowest gap of the
/// skyline gets the carton that fills it best across; a gap that none fits is given up.
/// </summary>
internal static class MixedLayer
{
    /// <summary>The fullest of the layers built from either end and side, by width or by area; empty when nothing fits.</summary>
    public static IReadOnlyList<Laid> Best(IReadOnlyList<(Stance Stance, int Left)> cartons, PalletRoom room)
    {
        IReadOnlyList<Laid> best = [];
        var most = 0.0;
        foreach (var across in (bool[])[false, true])
        {
            foreach (var byArea in (bool[])[false, true])
            {
                var laid = Fill(cartons, room, across, byArea);
                var area = laid.Sum(c => c.Stance.Area);
                if (area > most)
                    (best, most) = (laid, area);
            }
        }

        return best;
    }

    private static List<Laid> Fill(IReadOnlyList<(Stance Stance, int Left)> cartons, PalletRoom room, bool across, bool byArea)
    {
        var (length, width) = (room.DeckLength.Nanometres, room.DeckWidth.Nanometres);
        if (across)
            (length, width) = (width, length);
        var left = cartons.Select(c => c.Left).ToArray();
        var laid = new List<Laid>();
        var skyline = new List<(long Reach, long Width)> { (0, width) };
        for (var gap = 0; skyline[gap].Reach < length; gap = skyline.IndexOf(skyline.MinBy(s => s.Reach)))
        {
            var (reach, wide) = skyline[gap];
            var fitting = Fitting(cartons, left, length - reach, wide, across, byArea);
            if (fitting is null)
            {
                GiveUp(skyline, gap, length);
                continue;
            }

            var (index, stance) = fitting.Value;
            left[index]--;
            var beside = skyline.Take(gap).Sum(s => s.Width);
            var (deep, fills) = across ? (stance.Across, stance.Along) : (stance.Along, stance.Across);
            laid.Add(across ? new Laid(stance, beside, reach) : new Laid(stance, reach, beside));
            skyline[gap] = (reach + deep, fills);
            if (wide > fills)
                skyline.Insert(gap + 1, (reach, wide - fills));
            Join(skyline);
        }

        return laid;
    }

    private static (int Index, Stance Stance)? Fitting(
        IReadOnlyList<(Stance Stance, int Left)> cartons, int[] left, long deep, long wide, bool across, bool byArea)
    {
        (int Index, Stance Stance)? best = null;
        var score = (0.0, 0.0);
        for (var i = 0; i < cartons.Count; i++)
        {
            if (left[i] == 0)
                continue;
            var s = cartons[i].Stance;
            foreach (var stance in (Stance[])[s, s with { Along = s.Across, Across = s.Along, Turned = s.Along != s.Across }])
            {
                var (d, w) = across ? (stance.Across, stance.Along) : (stance.Along, stance.Across);
                if (d > deep || w > wide)
                    continue;
                // A carton that closes the gap exactly leaves nothing to be filled beside it.
                var fill = byArea && w < wide ? (stance.Area / wide / deep / 2, (double)w) : ((double)w / wide, (double)d);
                if (fill.CompareTo(score) > 0)
                    (best, score) = ((i, stance), fill);
            }
        }

        return best;
    }

    private static void GiveUp(List<(long Reach, long Width)> skyline, int gap, long length)
    {
        var before = gap > 0 ? skyline[gap - 1].Reach : length;
        var after = gap + 1 < skyline.Count ? skyline[gap + 1].Reach : length;
        skyline[gap] = (Math.Min(before, after), skyline[gap].Width);
        Join(skyline);
    }

    private static void Join(List<(long Reach, long Width)> skyline)
    {
        for (var i = skyline.Count - 1; i > 0; i--)
        {
            if (skyline[i].Reach != skyline[i - 1].Reach)
                continue;
            skyline[i - 1] = (skyline[i].Reach, skyline[i - 1].Width + skyline[i].Width);
            skyline.RemoveAt(i);
        }
    }
}
