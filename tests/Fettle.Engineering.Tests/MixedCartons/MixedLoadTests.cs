using Fettle.Engineering.MixedCartons;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.MixedCartons;

/// <summary>
/// The least support is of the range that Carpenter and Dowsland 1985 give (0.75 to 0.95, from memory). That a load is heavy
/// low and flat on top is common practice, no source. Every load here is judged by <see cref="MixedLoadCheck"/> as well.
/// </summary>
public class MixedLoadTests
{
    private static readonly PalletRoom room = new(In(48), In(40), In(60), Lb(2000));

    private static Length In(double inches) => Length.FromInches(inches);

    private static Mass Lb(double pounds) => Mass.FromPounds(pounds);

    private static Force Lbf(double poundsForce) => Force.FromPoundsForce(poundsForce);

    private static MixedLoad Build(PalletRoom room, params CartonKind[] kinds)
    {
        var load = MixedLoadBuilder.Build(kinds, room);
        MixedLoadCheck.IsSound(load, kinds, room);
        return load;
    }

    [Fact]
    public void One_kind_is_built_in_full_layers_that_stand_in_columns()
    {
        // 16 of 12 × 10 cover 48 × 40 wholly; five layers of 12 in reach 60 in.
        var load = Build(room, new CartonKind(In(12), In(10), In(12), Lb(20), 80, Lbf(200)));
        Assert.True(load.IsWhole);
        Assert.Equal((1.0, 1.0, 1.0, 5, In(60)), (load.AreaUsed, load.CubeUsed, load.FlatTop, load.Levels, load.Height));
        Assert.All(load.Cartons, c => Assert.Equal(1.0, c.Support));
        // Four above each of the lowest: 80 lbf.
        Assert.Equal(80.0, load.Cartons.Max(c => c.Bears.PoundsForce), 9);
        Assert.Equal(In(30), load.Centre!.Value.Height);
    }

    [Fact]
    public void Kinds_of_equal_height_share_a_layer()
    {
        // Half the deck each: 8 of 12 × 10 and 4 of 24 × 10, and no whole layer of either.
        var load = Build(room, new CartonKind(In(12), In(10), In(8), Lb(10), 8, Lbf(100)), new CartonKind(In(24), In(10), In(8), Lb(15), 4, Lbf(100)));
        Assert.True(load.IsWhole);
        Assert.Equal((1, 1.0, 1.0), (load.Levels, load.AreaUsed, load.FlatTop));
    }

    [Fact]
    public void The_heavy_and_strong_layer_goes_below_the_light_and_weak_whatever_their_order()
    {
        var heavy = new CartonKind(In(12), In(10), In(10), Lb(45), 16, Lbf(300));
        var light = new CartonKind(In(16), In(12), In(10), Lb(8), 10, Lbf(30));
        foreach (var kinds in (CartonKind[][])[[heavy, light], [light, heavy]])
        {
            var load = Build(room, kinds);
            Assert.True(load.IsWhole);
            Assert.All(load.Cartons, c => Assert.Equal(kinds[c.Kind] == heavy ? In(0) : In(10), c.Z));
        }
    }

    [Fact]
    public void Nothing_stands_on_what_is_fragile()
    {
        var load = Build(room, new CartonKind(In(24), In(20), In(10), Lb(30), 4, Force.Zero), new CartonKind(In(24), In(20), In(10), Lb(30), 4, Lbf(100)));
        Assert.True(load.IsWhole);
        Assert.All(load.Cartons, c => Assert.Equal(c.Kind == 0 ? In(10) : In(0), c.Z));
    }

    [Fact]
    public void A_narrow_layer_lies_in_the_middle_of_its_deck_and_turns_with_it()
    {
        // 3 × 3 of 15 × 13 cover 45 × 39 of 48 × 40: an inch and a half bare at each end, half an inch at each side.
        foreach (var deck in (PalletRoom[])[room, room with { DeckLength = In(40), DeckWidth = In(48) }])
        {
            var load = Build(deck, new CartonKind(In(15), In(13), In(10), Lb(20), 9, Lbf(100)));
            Assert.True(load.IsWhole);
            Assert.Equal(1, load.Levels);
            Assert.Equal(deck.DeckLength - load.Cartons.Max(c => c.X + c.Length), load.Cartons.Min(c => c.X));
            Assert.Equal(deck.DeckWidth - load.Cartons.Max(c => c.Y + c.Width), load.Cartons.Min(c => c.Y));
        }
    }

    [Fact]
    public void Strength_ends_a_column_and_says_so()
    {
        // Each bears two more of 30 lb and not three.
        var load = Build(new PalletRoom(In(20), In(20), In(90), Lb(2000)), new CartonKind(In(20), In(20), In(10), Lb(30), 5, Lbf(60)));
        Assert.Equal(3, load.Cartons.Count);
        Assert.Equal(new LeftOut(0, 2, LeftOutReason.Strength), Assert.Single(load.LeftOut));
    }

    [Fact]
    public void Weight_ends_a_load_exactly_at_its_limit()
    {
        var kind = new CartonKind(In(20), In(20), In(10), Lb(30), 5, Lbf(600));
        var load = Build(new PalletRoom(In(20), In(20), In(90), Lb(90)), kind);
        Assert.Equal(3, load.Cartons.Count);
        Assert.Equal(new LeftOut(0, 2, LeftOutReason.Weight), Assert.Single(load.LeftOut));
        Assert.Equal(2, Build(new PalletRoom(In(20), In(20), In(90), Lb(89.9)), kind).Cartons.Count);
    }

    [Fact]
    public void Height_ends_a_load_exactly_at_its_limit()
    {
        var kind = new CartonKind(In(20), In(20), In(10), Lb(30), 5, Lbf(600));
        var load = Build(new PalletRoom(In(20), In(20), In(30), Lb(900)), kind);
        Assert.Equal(3, load.Cartons.Count);
        Assert.Equal(new LeftOut(0, 2, LeftOutReason.Room), Assert.Single(load.LeftOut));
        Assert.Equal(2, Build(new PalletRoom(In(20), In(20), In(29.99), Lb(900)), kind).Cartons.Count);
    }

    [Fact]
    public void A_carton_larger_than_the_room_is_too_large()
    {
        var load = Build(room, new CartonKind(In(49), In(10), In(10), Lb(30), 2, Lbf(60)), new CartonKind(In(10), In(10), In(61), Lb(30), 1, Lbf(60)));
        Assert.Equal([new LeftOut(0, 2, LeftOutReason.TooLarge), new LeftOut(1, 1, LeftOutReason.TooLarge)], load.LeftOut);
        Assert.Empty(load.Cartons);
    }

    [Fact]
    public void A_tall_carton_lies_down_only_when_it_may_and_then_bears_nothing()
    {
        var tall = new CartonKind(In(10), In(8), In(70), Lb(30), 2, Lbf(600));
        Assert.Equal(LeftOutReason.TooLarge, Build(room with { DeckLength = In(70) }, tall).LeftOut[0].Reason);
        var load = Build(room with { DeckLength = In(70), DeckWidth = In(10) }, tall with { KeepUpright = false });
        var lying = Assert.Single(load.Cartons);
        Assert.Equal((CartonFace.Side, In(8)), (lying.Down, lying.Height));
        Assert.Equal(new LeftOut(0, 1, LeftOutReason.Strength), Assert.Single(load.LeftOut));
    }

    [Fact]
    public void A_carton_bridges_two_and_shares_its_weight_by_contact()
    {
        // A floor of one 30 in carton and one of 10 in; the bridge of 40 in rests on both, three quarters on the first.
        var load = Build(
            new PalletRoom(In(40), In(20), In(20), Lb(500)),
            new CartonKind(In(30), In(20), In(10), Lb(90), 1, Lbf(100)),
            new CartonKind(In(20), In(10), In(10), Lb(80), 1, Lbf(100)),
            new CartonKind(In(40), In(20), In(10), Lb(40), 1, Force.Zero));
        Assert.True(load.IsWhole);
        Assert.Equal([30.0, 10, 0], load.Cartons.OrderBy(c => c.Kind).Select(c => Math.Round(c.Bears.PoundsForce, 9)));
    }

    [Fact]
    public void Support_on_the_limit_counts_as_within_it()
    {
        // A base of 20 × 10 on a carton of 16 × 10: 0.8 of it.
        CartonKind[] kinds = [new CartonKind(In(16), In(10), In(10), Lb(50), 1, Lbf(100)), new CartonKind(In(20), In(10), In(10), Lb(5), 1, Force.Zero)];
        var narrow = new PalletRoom(In(20), In(10), In(20), Lb(500));
        Assert.True(Build(narrow, kinds).IsWhole);
        Assert.False(Build(narrow with { LeastSupport = 0.81 }, kinds).IsWhole);
    }

    [Fact]
    public void A_load_smaller_than_the_deck_lies_in_its_middle()
    {
        var load = Build(room, new CartonKind(In(20), In(10), In(10), Lb(5), 1, Force.Zero));
        Assert.Equal((In(14), In(15), Length.Zero, Length.Zero), (load.Cartons[0].X, load.Cartons[0].Y, load.Centre!.Value.Along, load.Centre.Value.Across));
    }

    /// <summary>Mixes drawn once, more than the room takes. The figures are those that the rules of building gave when this was written.</summary>
    [Theory]
    [InlineData(1, 0.6, 0.590365, 0.39375, 8.751491)]
    [InlineData(2, 0.8, 0.438498, 0.196875, 5.674365)]
    [InlineData(3, 0.8, 0.701823, 0.375, 9.773649)]
    [InlineData(4, 0.95, 0.719618, 0.405729, 11.115942)]
    [InlineData(5, 0.6, 0.496528, 0.239062, 7.792727)]
    [InlineData(6, 0.8, 0.709722, 0.091667, 10.139089)]
    [InlineData(7, 1, 0.708333, 0.85, 10)]
    [InlineData(8, 0.8, 0.714627, 0.148438, 10.3049)]
    public void A_drawn_mix_fills_as_much_as_it_did(int seed, double leastSupport, double cube, double flatTop, double centre)
    {
        var random = new Random(seed);
        CartonKind[] kinds = [.. Enumerable.Range(0, 5).Select(_ => new CartonKind(
            In(random.Next(8, 25)), In(random.Next(6, 20)), In(random.Next(3, 6) * 2), Lb(random.Next(4, 40)), random.Next(1, 9), Lbf(random.Next(0, 4) * 100), random.Next(0, 2) == 0))];
        var load = Build(room with { Height = In(24), Mass = Lb(600), LeastSupport = leastSupport }, kinds);
        Assert.Equal((cube, flatTop, centre), (Math.Round(load.CubeUsed, 6), Math.Round(load.FlatTop, 6), Math.Round(load.Centre!.Value.Height.Inches, 6)));
    }

    [Fact]
    public void Twenty_six_kinds_that_fill_most_of_a_pallet_are_all_placed()
    {
        var random = new Random(26);
        CartonKind[] kinds = [.. Enumerable.Range(0, 26).Select(_ => new CartonKind(
            In(random.Next(8, 19)), In(random.Next(6, 14)), In(random.Next(3, 7) * 2), Lb(random.Next(4, 30)), random.Next(1, 5), Lbf(random.Next(100, 500))))];
        var volume = kinds.Sum(k => k.Count * k.Length.Inches * k.Width.Inches * k.Height.Inches);
        Assert.InRange(volume / (48 * 40 * 60), 0.5, 0.75);
        Assert.True(Build(room, kinds).IsWhole);
    }

    [Fact]
    public void No_cartons_make_an_empty_load()
    {
        var load = Build(room);
        Assert.True(load.IsWhole);
        Assert.Empty(load.Cartons);
    }

    [Fact]
    public void A_million_cartons_end_the_search_and_say_why()
    {
        var load = Build(room, new CartonKind(In(12), In(10), In(12), Lb(2), 1_000_000, Lbf(200)), new CartonKind(In(6), In(5), In(4), Lb(0.1), 1_000_000, Lbf(20)));
        Assert.True(load.CubeUsed > 0.99);
        Assert.All(load.LeftOut, l => Assert.True(l.Reason is LeftOutReason.Room or LeftOutReason.NotTried));
    }

    [Fact]
    public void What_is_just_possible_is_built()
    {
        var vast = new PalletRoom(Length.FromMetres(100), Length.FromMetres(100), Length.FromMetres(100), Lb(1), 1);
        Assert.Equal(new LeftOut(0, 1, LeftOutReason.Weight), Assert.Single(MixedLoadBuilder.Build([new CartonKind(In(1), In(1), In(1), Lb(2), 1, Force.Zero)], vast).LeftOut));
        Assert.True(Build(room with { LeastSupport = 0.501 }, new CartonKind(In(1), In(1), In(1), Lb(1), 0, Force.Zero)).IsWhole);
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        var kind = new CartonKind(In(12), In(10), In(12), Lb(20), 1, Lbf(200));
        CartonKind[] wrong =
        [
            kind with { Length = In(0) }, kind with { Width = In(-1) }, kind with { Height = In(0) }, kind with { Mass = Mass.Zero },
            kind with { Count = -1 }, kind with { Bears = Lbf(-1) },
        ];
        Assert.All(wrong, k => Assert.Throws<ArgumentOutOfRangeException>("kinds", () => MixedLoadBuilder.Build([k], room)));
        PalletRoom[] rooms =
        [
            room with { DeckLength = In(0) }, room with { DeckWidth = In(0) }, room with { Height = In(0) }, room with { Mass = Mass.Zero },
            room with { LeastSupport = 0.5 }, room with { LeastSupport = 1.01 }, room with { LeastSupport = double.NaN }, room with { DeckLength = Length.FromMetres(100.1) },
        ];
        Assert.All(rooms, r => Assert.Throws<ArgumentOutOfRangeException>("room", () => MixedLoadBuilder.Build([kind], r)));
    }
}
