namespace Fettle.Web.Drawings;

/// <summary>Slanted lines over a parallelogram, reckoned here because a pattern would need an id, and ids must not repeat in a page.</summary>
internal static class Hatch
{
    /// <summary>Lines some <paramref name="apart"/> units from each other across the parallelogram at <paramref name="corner"/> with the given sides; at most 80.</summary>
    public static List<Spot[]> Lines(Spot corner, Spot along, Spot up, double apart)
    {
        var lines = new List<Spot[]>();
        var (a, b) = (along.Length, up.Length);
        if (a <= 0 || b <= 0)
            return lines;
        // In the parallelogram's own units the lines are u·a + v·b = k.
        var step = Math.Max(apart * 1.4, (a + b) / 80);
        for (var k = step / 2; k < a + b; k += step)
        {
            var (u0, v0) = k <= a ? (k / a, 0.0) : (1.0, (k - a) / b);
            var (u1, v1) = k <= b ? (0.0, k / b) : ((k - b) / a, 1.0);
            lines.Add([corner + (along * u0) + (up * v0), corner + (along * u1) + (up * v1)]);
        }

        return lines;
    }
}
