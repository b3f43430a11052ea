namespace Fettle.Engineering.TrailerFloor;

/// <summary>A small dense linear programme that has 0 as a solution.</summary>
internal static class LinearProgramme
{
    private const double Tiny = 1e-10;

    /// <summary>Every step leaves a solution, so that stopping early costs quality only.</summary>
    private const int MostSteps = 400;

    /// <summary>
    /// The x ≥ 0 with Σ <paramref name="rows"/>[r][j] x[j] ≤ <paramref name="limits"/>[r] (limits not negative) at which
    /// Σ <paramref name="gain"/>[j] x[j] is greatest, by the simplex method; the best x reached when that takes too many steps
    /// or has no end.
    /// </summary>
    public static double[] Maximise(IReadOnlyList<double[]> rows, IReadOnlyList<double> limits, double[] gain)
    {
        var (m, n) = (rows.Count, gain.Length);
        var table = new double[m + 1][];
        var basis = new int[m];
        for (var r = 0; r < m; r++)
        {
            // Columns 0 to n - 1 are x, the last is the limit. The slack of row r is variable n + r; columns hold what is not in the basis.
            table[r] = [.. rows[r], limits[r]];
            basis[r] = n + r;
        }

        table[m] = [.. gain, 0];
        var column = Enumerable.Range(0, n).ToArray();
        for (var step = 0; step < MostSteps; step++)
        {
            // The steepest gain at first; the lowest index later, which cannot go round in circles (Bland 1977).
            var bland = step > MostSteps / 2;
            var enter = -1;
            for (var j = 0; j < n; j++)
            {
                if (table[m][j] > Tiny && (enter < 0 || (bland ? column[j] < column[enter] : table[m][j] > table[m][enter])))
                    enter = j;
            }

            if (enter < 0)
                break;
            var leave = -1;
            for (var r = 0; r < m; r++)
            {
                if (table[r][enter] <= Tiny)
                    continue;
                var ratio = leave < 0 ? 0 : table[r][n] * table[leave][enter] - table[leave][n] * table[r][enter];
                if (leave < 0 || ratio < -Tiny || (ratio <= Tiny && basis[r] < basis[leave]))
                    leave = r;
            }

            if (leave < 0)
                break;
            Pivot(table, leave, enter);
            (basis[leave], column[enter]) = (column[enter], basis[leave]);
        }

        var x = new double[n];
        for (var r = 0; r < m; r++)
        {
            if (basis[r] < n)
                x[basis[r]] = Math.Max(0, table[r][n]);
        }

        return x;
    }

    /// <summary>Swaps the variable of a row with that of a column; the column then holds the one that left.</summary>
    private static void Pivot(double[][] table, int row, int column)
    {
        var pivot = table[row][column];
        for (var j = 0; j < table[row].Length; j++)
            table[row][j] = j == column ? 1 / pivot : table[row][j] / pivot;
        for (var r = 0; r < table.Length; r++)
        {
            if (r == row || table[r][column] == 0)
                continue;
            var factor = table[r][column];
            for (var j = 0; j < table[r].Length; j++)
                table[r][j] = j == column ? -factor / pivot : table[r][j] - factor * table[row][j];
        }
    }
}
