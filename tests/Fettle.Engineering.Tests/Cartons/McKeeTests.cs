using CsCheck;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Cartons;

public class McKeeTests
{
    // McKee, Gander and Wachuta 1963. The first row is a stored worked example (about 562 lb); the others are the printed
    // constants worked by hand. Calipers are the examples' own, 0.160 for C flute among them.
    [Theory]
    [InlineData(32, 0.160, 56, 562.27, 536.89)]
    [InlineData(32, 0.125, 56, 496.98, 473.61)]
    [InlineData(32, 0.160, 72, 637.55, 607.55)]
    [InlineData(44, 0.160, 72, 876.63, 835.39)]
    [InlineData(48, 0.28, 72, 1265.10, 1210.99)]
    [InlineData(51, 0.28, 88, 1486.03, 1420.19)]
    public void Both_short_forms_give_the_worked_values(double crush, double caliper, double perimeter, double simplified, double power)
    {
        var t = Length.FromInches(caliper);
        var z = Length.FromInches(perimeter);
        Close.To(simplified, McKee.Simplified(crush, t, z).PoundsForce, 5e-4);
        Close.To(power, McKee.PowerForm(crush, t, z).PoundsForce, 5e-4);
    }

    [Theory]
    [InlineData(32, 120, 60, 56, 602.42)]
    [InlineData(44, 160, 80, 72, 930.05)]
    public void The_full_form_gives_the_worked_values(double crush, double dx, double dy, double perimeter, double pounds) =>
        Close.To(pounds, McKee.Full(crush, dx, dy, Length.FromInches(perimeter)).PoundsForce, 5e-4);

    [Fact]
    public void The_full_form_gives_the_same_force_worked_in_newtons_and_metres()
    {
        var imperial = McKee.Full(32, 120, 60, Length.FromInches(56));
        // The exponents close, so the constant carries over: N/m, N·m and m in, newtons out (2679.70 N).
        const double poundForce = 4.4482216152605, inch = 0.0254;
        var newtons = 2.028 * Math.Pow(32 * poundForce / inch, 0.746) * Math.Pow(Math.Sqrt(120 * 60) * poundForce * inch, 0.254) * Math.Pow(56 * inch, 0.492);
        Close.To(newtons, imperial.Newtons, Close.Arithmetic);
        Close.To(2679.70, imperial.Newtons, 5e-4);
    }

    [Fact]
    public void Kilonewtons_per_metre_and_millimetres_give_newtons()
    {
        // 5.87 × 5.6 kN/m × √(4.0 mm × 1400 mm) = 2459.9 N; taken for kilonewtons or kilograms it would be far off.
        var board = Board.FromKilonewtonsPerMetre(Flute.C, 5.6);
        Close.To(2459.9, McKee.Simplified(board.EdgeCrush, Length.FromMillimetres(4), Length.FromMillimetres(1400)).Newtons, 5e-4);
    }

    [Fact]
    public void A_change_of_units_leaves_the_force_unchanged() =>
        Gen.Select(Gen.Double[10, 120], Gen.Double[0.03, 0.5], Gen.Double[10, 200]).Sample((crush, caliper, perimeter) =>
        {
            var imperial = McKee.Simplified(crush, Length.FromInches(caliper), Length.FromInches(perimeter));
            var board = Board.FromKilonewtonsPerMetre(Flute.C, crush / Board.PoundsPerInchPerKilonewtonPerMetre);
            var metric = McKee.Simplified(board.EdgeCrush, Length.FromMillimetres(caliper * 25.4), Length.FromMetres(perimeter * 0.0254));
            Close.To(imperial.Newtons, metric.Newtons, 1e-6);
            var byHand = 5.87 * (crush * 4.4482216152605 / 25.4) * Math.Sqrt(caliper * 25.4 * perimeter * 25.4);
            Close.To(byHand, imperial.Newtons, 1e-6);
        });

    [Fact]
    public void The_worked_example_is_the_same_force_in_newtons() =>
        Close.To(2501.085, McKee.Simplified(32, Length.FromInches(0.160), Length.FromInches(56)).Newtons, 1e-5);

    [Fact]
    public void A_board_brings_its_flutes_thickness()
    {
        var fromBoard = McKee.Simplified(new Board(Flute.C, 32), Length.FromInches(16), Length.FromInches(12));
        Assert.Equal(McKee.Simplified(32, Length.FromInches(0.15625), Length.FromInches(56)), fromBoard);
        // 5/32 in instead of the worked example's 0.160 in: 1.2 % less.
        Close.To(562.27 * Math.Sqrt(0.15625 / 0.160), fromBoard.PoundsForce, 5e-4);
    }

    [Fact]
    public void Edge_crush_in_both_units_is_the_same_board()
    {
        // 32 lb/in is 5.6041 kN/m, 44 lb/in is 7.7056 kN/m (1 lb/in = 175.1268 N/m).
        Close.To(32, Board.FromKilonewtonsPerMetre(Flute.C, 5.6041).EdgeCrush, 1e-5);
        Close.To(44, Board.FromKilonewtonsPerMetre(Flute.C, 7.7056).EdgeCrush, 1e-5);
    }

    [Fact]
    public void A_stronger_or_thicker_board_or_a_longer_wall_never_weakens_the_carton() =>
        Gen.Select(Gen.Double[10, 100], Gen.Double[0.03, 0.5], Gen.Double[10, 200], Gen.Double[1, 2]).Sample((crush, caliper, perimeter, more) =>
        {
            var t = Length.FromInches(caliper);
            var z = Length.FromInches(perimeter);
            foreach (var form in new Func<double, Length, Length, Force>[] { McKee.Simplified, McKee.PowerForm })
            {
                Assert.True(form(crush * more, t, z) >= form(crush, t, z));
                Assert.True(form(crush, t * more, z) >= form(crush, t, z));
                Assert.True(form(crush, t, z * more) >= form(crush, t, z));
            }
        });

    [Theory]
    [InlineData(0, 0.16, 56)]
    [InlineData(-32, 0.16, 56)]
    [InlineData(double.NaN, 0.16, 56)]
    [InlineData(double.PositiveInfinity, 0.16, 56)]
    [InlineData(32, 0, 56)]
    [InlineData(32, 0.16, 0)]
    [InlineData(32, 0.16, -56)]
    public void A_figure_that_no_carton_has_is_refused(double crush, double caliper, double perimeter)
    {
        var t = Length.FromInches(caliper);
        var z = Length.FromInches(perimeter);
        Assert.Throws<ArgumentOutOfRangeException>(() => McKee.Simplified(crush, t, z));
        Assert.Throws<ArgumentOutOfRangeException>(() => McKee.PowerForm(crush, t, z));
    }

    [Fact]
    public void The_four_sides_make_the_perimeter() =>
        Assert.Equal(Length.FromInches(56), McKee.Perimeter(Length.FromInches(16), Length.FromInches(12)));

    [Theory]
    [InlineData(32, true)]
    [InlineData(500, true)]
    [InlineData(500.1, false)]
    [InlineData(0, false)]
    [InlineData(-1, false)]
    [InlineData(double.NaN, false)]
    public void A_board_knows_whether_its_edge_crush_can_be_meant(double crush, bool plausible) =>
        Assert.Equal(plausible, new Board(Flute.C, crush).IsPlausible);
}
