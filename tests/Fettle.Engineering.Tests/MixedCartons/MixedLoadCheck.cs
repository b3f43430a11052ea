using Fettle.Engineering.MixedCartons;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.MixedCartons;

/// <summary>Judges a mixed load from its placements alone, with nothing shared with the builder.</summary>
internal static class MixedLoadCheck
{
    public static void IsSound(MixedLoad load, IReadOnlyList<CartonKind> kinds, PalletRoom room)
    {
        Counts(load, kinds, room);
        foreach (var c in load.Cartons)
        {
            IsTheCarton(c, kinds[c.Kind]);
            Assert.True(c.X >= Length.Zero && c.Y >= Length.Zero && c.Z >= Length.Zero, $"{c} leaves the deck");
            Assert.True(c.X + c.Length <= room.DeckLength && c.Y + c.Width <= room.DeckWidth, $"{c} leaves the deck");
            Assert.True(c.Z + c.Height <= room.Height, $"{c} is too high");
        }

        NothingOverlapsAndEachComesFromAbove(load.Cartons);
        IsSupported(load.Cartons, room.LeastSupport);
        NothingIsCrushed(load.Cartons, kinds);
        Figures(load, kinds, room);
    }

    private static void Counts(MixedLoad load, IReadOnlyList<CartonKind> kinds, PalletRoom room)
    {
        for (var k = 0; k < kinds.Count; k++)
            Assert.Equal(kinds[k].Count, load.Cartons.Count(c => c.Kind == k) + load.LeftOut.Where(l => l.Kind == k).Sum(l => l.Count));
        Assert.All(load.LeftOut, l => Assert.True(l.Count > 0));
        Assert.Equal(load.LeftOut.Count == 0, load.IsWhole);
        var mass = MassOf(load, kinds);
        Assert.True(mass <= room.Mass, $"{mass} is over {room.Mass}");
        foreach (var l in load.LeftOut)
        {
            var k = kinds[l.Kind];
            Assert.Equal(l.Reason == LeftOutReason.TooLarge, !Fits(k, room));
            if (l.Reason == LeftOutReason.Weight)
                Assert.True(mass + k.Mass > room.Mass, $"one more of {k} would not pass {room.Mass}");
            if (l.Reason == LeftOutReason.Strength)
                Assert.NotEmpty(load.Cartons);
        }
    }

    private static bool Fits(CartonKind k, PalletRoom room)
    {
        bool Stands(Length a, Length b, Length up) => up <= room.Height
            && Length.Max(a, b) <= Length.Max(room.DeckLength, room.DeckWidth) && Length.Min(a, b) <= Length.Min(room.DeckLength, room.DeckWidth);
        return Stands(k.Length, k.Width, k.Height)
            || (!k.KeepUpright && (Stands(k.Length, k.Height, k.Width) || Stands(k.Width, k.Height, k.Length)));
    }

    private static void IsTheCarton(PlacedCarton c, CartonKind k)
    {
        var (a, b, up) = c.Down switch
        {
            CartonFace.Base => (k.Length, k.Width, k.Height),
            CartonFace.Side => (k.Length, k.Height, k.Width),
            _ => (k.Width, k.Height, k.Length),
        };
        Assert.Equal(up, c.Height);
        Assert.Equal(c.Turned ? (b, a) : (a, b), (c.Length, c.Width));
        Assert.True(c.Down == CartonFace.Base || !k.KeepUpright, $"{c} should stand upright");
    }

    private static void NothingOverlapsAndEachComesFromAbove(IReadOnlyList<PlacedCarton> cartons)
    {
        for (var i = 0; i < cartons.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                if (Contact(cartons[i], cartons[j]) > 0)
                    Assert.True(cartons[j].Z + cartons[j].Height <= cartons[i].Z, $"{cartons[i]} does not stand above {cartons[j]}");
            }
        }
    }

    private static void IsSupported(IReadOnlyList<PlacedCarton> cartons, double least)
    {
        foreach (var c in cartons)
        {
            var share = c.Z == Length.Zero ? 1 : cartons.Where(b => b.Z + b.Height == c.Z).Sum(b => Contact(c, b)) / (c.Length.Inches * c.Width.Inches);
            Assert.Equal(share, c.Support, 1e-9);
            Assert.True(share >= least - 1e-6, $"{c} is supported by {share}");
        }
    }

    private static void NothingIsCrushed(IReadOnlyList<PlacedCarton> cartons, IReadOnlyList<CartonKind> kinds)
    {
        var bears = new Dictionary<PlacedCarton, double>();
        foreach (var c in cartons.OrderByDescending(c => c.Z))
        {
            // Everything above has its load by now: each hands down its share by area.
            bears[c] = cartons.Where(above => above.Z == c.Z + c.Height && Contact(above, c) > 0).Sum(above =>
                (bears[above] + Force.WeightOf(kinds[above.Kind].Mass).PoundsForce) * Contact(above, c)
                / cartons.Where(b => b.Z + b.Height == above.Z).Sum(b => Contact(above, b)));
            Close.To(bears[c], c.Bears.PoundsForce, 1e-6);
            var allowed = c.Down == CartonFace.Base ? kinds[c.Kind].Bears.PoundsForce : 0;
            Assert.True(bears[c] <= allowed * (1 + 1e-6), $"{c} bears {bears[c]} lbf of {allowed}");
        }
    }

    private static void Figures(MixedLoad load, IReadOnlyList<CartonKind> kinds, PalletRoom room)
    {
        var (l, w) = (room.DeckLength.Inches, room.DeckWidth.Inches);
        double Area(PlacedCarton c) => c.Length.Inches * c.Width.Inches;
        Assert.Equal(load.Cartons.Where(c => c.Z == Length.Zero).Sum(Area) / (l * w), load.AreaUsed, 1e-9);
        Assert.Equal(load.Cartons.Sum(c => Area(c) * c.Height.Inches) / (l * w * room.Height.Inches), load.CubeUsed, 1e-9);
        Assert.Equal(load.Cartons.Select(c => c.Z).Distinct().Count(), load.Levels);
        if (load.Cartons.Count == 0)
        {
            Assert.Null(load.Centre);
            Assert.Equal((Length.Zero, 0.0), (load.Height, load.FlatTop));
            return;
        }

        Assert.Equal(load.Cartons.Max(c => c.Z + c.Height), load.Height);
        Assert.Equal(load.Cartons.Where(c => c.Z + c.Height == load.Height).Sum(Area) / (l * w), load.FlatTop, 1e-9);
        var mass = MassOf(load, kinds);
        double Mean(Func<PlacedCarton, double> place) => load.Cartons.Sum(c => place(c) * kinds[c.Kind].Mass.Pounds) / mass.Pounds;
        Assert.Equal(mass, load.Centre!.Value.Mass);
        Assert.Equal(Mean(c => c.Z.Inches + c.Height.Inches / 2), load.Centre.Value.Height.Inches, 1e-6);
        Assert.Equal(Mean(c => c.X.Inches + c.Length.Inches / 2) - l / 2, load.Centre.Value.Along.Inches, 1e-6);
        Assert.Equal(Mean(c => c.Y.Inches + c.Width.Inches / 2) - w / 2, load.Centre.Value.Across.Inches, 1e-6);
    }

    private static Mass MassOf(MixedLoad load, IReadOnlyList<CartonKind> kinds) => load.Cartons.Aggregate(Mass.Zero, (sum, c) => sum + kinds[c.Kind].Mass);

    private static double Contact(PlacedCarton a, PlacedCarton b) =>
        Math.Max(0, (Length.Min(a.X + a.Length, b.X + b.Length) - Length.Max(a.X, b.X)).Inches)
        * Math.Max(0, (Length.Min(a.Y + a.Width, b.Y + b.Width) - Length.Max(a.Y, b.Y)).Inches);
}
