using Fettle.Engineering.MixedCartons;
using static Fettle.Engineering.Tests.MixedCartons.SmallCartons;

namespace Fettle.Engineering.Tests.MixedCartons;

public class CartonKindTests
{
    [Fact]
    public void An_upright_carton_stands_on_its_base_either_way_round() =>
        Assert.Equal([new Stance(7, 5, 3, 2, CartonFace.Base, false), new Stance(7, 3, 5, 2, CartonFace.Base, true)], Kind(5, 3, 2).Stances(7));

    [Fact]
    public void A_carton_that_may_lie_stands_on_its_base_first_then_on_its_side_then_on_its_end() =>
        Assert.Equal(
            [
                new Stance(0, 5, 3, 2, CartonFace.Base, false), new Stance(0, 3, 5, 2, CartonFace.Base, true),
                new Stance(0, 5, 2, 3, CartonFace.Side, false), new Stance(0, 2, 5, 3, CartonFace.Side, true),
                new Stance(0, 3, 2, 5, CartonFace.End, false), new Stance(0, 2, 3, 5, CartonFace.End, true),
            ],
            Kind(5, 3, 2, keepUpright: false).Stances(0));

    [Fact]
    public void A_square_base_has_no_other_way_round() =>
        Assert.Equal([new Stance(0, 4, 4, 2, CartonFace.Base, false)], Kind(4, 4, 2).Stances(0));

    [Fact]
    public void The_area_of_a_stance_is_that_of_its_base() =>
        Assert.Equal(15.0, new Stance(0, 5, 3, 2, CartonFace.Base, false).Area);

    [Theory]
    [InlineData(9, 7, 5, true)]
    [InlineData(10, 7, 5, false)]
    [InlineData(9, 8, 5, false)]
    [InlineData(9, 7, 6, false)]
    public void A_room_takes_what_is_no_longer_wider_or_higher_than_it_is(long along, long across, long up, bool takes) =>
        Assert.Equal(takes, Room(9, 7, 5).Takes(new Stance(0, along, across, up, CartonFace.Base, false)));

    [Fact]
    public void The_area_of_a_deck_is_its_length_by_its_width() =>
        Assert.Equal(63.0, Room(9, 7, 5).DeckArea);
}
