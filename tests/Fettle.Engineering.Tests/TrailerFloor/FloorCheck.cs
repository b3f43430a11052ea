using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.TrailerFloor;

/// <summary>Judges a floor plan from its positions alone.</summary>
internal static class FloorCheck
{
    public static void IsAPlan(FloorPlan plan, IReadOnlyList<FloorUnits> units, Length width)
    {
        for (var kind = 0; kind < units.Count; kind++)
            Assert.Equal(units[kind].Count, plan.Positions.Count(p => p.Kind == kind));
        for (var i = 0; i < plan.Positions.Count; i++)
        {
            var (unit, a) = (units[plan.Positions[i].Kind], plan.Positions[i].Place);
            Assert.True((a.Length == unit.Length && a.Width == unit.Width) || (unit.MayTurn && a.Length == unit.Width && a.Width == unit.Length), $"{a} is not {unit}");
            Assert.True(a.X >= Length.Zero && a.Y >= Length.Zero && a.Y + a.Width <= width, $"{a} leaves the floor");
            for (var j = 0; j < i; j++)
            {
                var b = plan.Positions[j].Place;
                Assert.True(a.X + a.Length <= b.X || b.X + b.Length <= a.X || a.Y + a.Width <= b.Y || b.Y + b.Width <= a.Y, $"{a} and {b} overlap");
            }
        }

        Assert.Equal(plan.LengthUsed, plan.Positions.Count == 0 ? Length.Zero : plan.Positions.Max(p => p.Place.X + p.Place.Length));
        Assert.True(plan.LowerBound <= plan.LengthUsed, $"{plan.LengthUsed} under the bound {plan.LowerBound}");
    }

    /// <summary>The shortest length by trying everything: each free cell, row by row, is a unit's corner or left bare. For small whole sides only.</summary>
    public static int ShortestByBruteForce(IReadOnlyList<(int Length, int Width, int Count, bool MayTurn)> units, int width)
    {
        var area = units.Sum(u => u.Length * u.Width * u.Count);
        for (var length = (area + width - 1) / width; ; length++)
        {
            var left = units.Select(u => u.Count).ToArray();
            if (Fits(new bool[length, width], 0, left, length * width - area))
                return length;
        }

        bool Fits(bool[,] taken, int cell, int[] left, int spare)
        {
            if (left.All(c => c == 0))
                return true;
            var length = taken.GetLength(0);
            while (cell < length * width && taken[cell / width, cell % width])
                cell++;
            if (cell == length * width)
                return false;
            var (x, y) = (cell / width, cell % width);
            for (var k = 0; k < units.Count; k++)
            {
                if (left[k] == 0)
                    continue;
                foreach (var (l, w) in units[k].MayTurn ? ((int, int)[])[(units[k].Length, units[k].Width), (units[k].Width, units[k].Length)] : [(units[k].Length, units[k].Width)])
                {
                    if (!Mark(taken, x, y, l, w))
                        continue;
                    left[k]--;
                    if (Fits(taken, cell + 1, left, spare))
                        return true;
                    left[k]++;
                    for (var i = x; i < x + l; i++)
                    {
                        for (var j = y; j < y + w; j++)
                            taken[i, j] = false;
                    }
                }
            }

            if (spare == 0)
                return false;
            taken[x, y] = true;
            var fits = Fits(taken, cell + 1, left, spare - 1);
            taken[x, y] = false;
            return fits;
        }

        static bool Mark(bool[,] taken, int x, int y, int l, int w)
        {
            if (x + l > taken.GetLength(0) || y + w > taken.GetLength(1))
                return false;
            for (var i = x; i < x + l; i++)
            {
                for (var j = y; j < y + w; j++)
                {
                    if (taken[i, j])
                        return false;
                }
            }

            for (var i = x; i < x + l; i++)
            {
                for (var j = y; j < y + w; j++)
                    taken[i, j] = true;
            }

            return true;
        }
    }
}
