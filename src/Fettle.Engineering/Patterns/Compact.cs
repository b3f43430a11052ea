namespace Fettle.Engineering.Patterns;

/// <summary>Layers of a given number of cartons that take little room.</summary>
internal static class Compact
{
    /// <summary>A full grid up to this many times as long as wide is taken as it is; a longer one competes with other layers.</summary>
    private const int LongestGrid = 3;

    /// <summary>Cuts that one search may try.</summary>
    private const long MostWork = 200_000;

    /// <summary>Cuts within cuts are tried to this depth.</summary>
    private const int Depths = 2;

    /// <summary>Rows and columns of cartons that all lie one way; the last row may not be full.</summary>
    private readonly record struct Grid(int Columns, int Rows, long Along, long Across) : IComparable<Grid>
    {
        public long Length => Columns * Along;

        public long Width => Rows * Across;

        public Room Room => new(Length, Width);

        public int CompareTo(Grid other) => Room.CompareTo(other.Room);

        public IEnumerable<Box> Cartons(int count)
        {
            for (var k = 0; k < count; k++)
                yield return new Box(k % Columns * Along, k / Columns * Across, Along, Across);
        }
    }

    /// <summary>
    /// A footprint, ordered by half its perimeter, then its area (of two with one perimeter the longer has the smaller area),
    /// then the one that lies along the length.
    /// </summary>
    private readonly record struct Room(long Length, long Width) : IComparable<Room>
    {
        public long HalfPerimeter => Length + Width;

        public int CompareTo(Room other)
        {
            var byPerimeter = HalfPerimeter.CompareTo(other.HalfPerimeter);
            if (byPerimeter != 0)
                return byPerimeter;
            var byArea = Math.Abs(other.Length - other.Width).CompareTo(Math.Abs(Length - Width));
            return byArea != 0 ? byArea : other.Length.CompareTo(Length);
        }
    }

    /// <summary>The cartons, or null when neither a grid nor a layer smaller than any grid was found.</summary>
    public static IEnumerable<Box>? Layer(Floor floor, int count)
    {
        Grid? full = null, any = null;
        foreach (var (along, across) in floor.Turns)
        {
            for (var columns = (int)Math.Min(count, floor.Length / along); columns > 0; columns--)
            {
                var rows = (count + columns - 1) / columns;
                if (rows > floor.Width / across)
                    break;
                var grid = new Grid(columns, rows, along, across);
                if (any is null || grid.CompareTo(any.Value) < 0)
                    any = grid;
                if (columns * rows == count && Ratio(grid) <= LongestGrid && (full is null || grid.CompareTo(full.Value) < 0))
                    full = grid;
            }
        }

        return full?.Cartons(count) ?? Smaller(floor, count, any?.Room) ?? any?.Cartons(count);
    }

    private static double Ratio(Grid grid) => Math.Max(grid.Length, grid.Width) / (double)Math.Min(grid.Length, grid.Width);

    /// <summary>The smallest room, below the one known, in which the five-block search places the cartons.</summary>
    private static List<Box>? Smaller(Floor floor, int count, Room? known)
    {
        var longest = Math.Max(floor.Length, floor.Width);
        if (known is { } limit)
            longest = Math.Min(longest, limit.HalfPerimeter - floor.CartonWidth);
        if (CartonSums.UpTo(longest, floor.CartonLength, floor.CartonWidth, PatternFinder.MostSums) is not { } sums)
            return null;
        var search = new FiveBlockSearch(sums, MostWork);
        // Rounded down a little: a room that is just large enough must not be lost.
        var area = count * (double)floor.CartonLength * floor.CartonWidth * (1 - 1e-12);
        var rooms = new List<Room>();
        for (var a = 1; a < sums.Count && sums[a] <= floor.Length; a++)
        {
            for (var b = 1; b < sums.Count && sums[b] <= floor.Width; b++)
            {
                var room = new Room(sums[a], sums[b]);
                if ((known is null || room.CompareTo(known.Value) < 0) && (double)sums[a] * sums[b] >= area)
                    rooms.Add(room);
            }
        }

        rooms.Sort();
        foreach (var room in rooms)
        {
            var (a, b) = (sums.RankOf(room.Length), sums.RankOf(room.Width));
            if (search.Bound(a, b) >= count && search.Most(a, b, count, Depths) >= count)
                return search.Layout(a, b);
        }

        return null;
    }
}
