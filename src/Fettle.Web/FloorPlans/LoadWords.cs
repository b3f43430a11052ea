using Fettle.Engineering.Axles;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Web.FloorPlans;

/// <summary>A trailer's plan in words.</summary>
public static class LoadWords
{
    public static string Why(LeftOutReason reason) => reason switch
    {
        LeftOutReason.TooTall => "It is taller than the trailer or its door.",
        LeftOutReason.TooWide => "It is wider than the trailer or its door, however it may be turned.",
        LeftOutReason.TooLong => "It is longer than the trailer.",
        LeftOutReason.NoRoomLeft => "What goes in before it leaves no room.",
    };

    /// <summary>"on the floor", "on 3".</summary>
    /// <param name="number">The number by which the unit below goes, where there is one.</param>
    public static string Where(LoadPosition position, int? number) =>
        position.IsOnDeck ? "on the deck" : number is { } below ? $"on no. {below}" : "on the floor";

    /// <summary>A vehicle to compute axle weights with; only for trailers of about the length that it illustrates.</summary>
    public static TractorTrailer? VehicleOf(Trailer trailer) =>
        trailer.Length >= Length.FromInches(600) && trailer.Length <= Length.FromInches(640) ? TractorTrailer.Illustration : null;
}
