namespace Fettle.Readiness.Holds;

/// <summary>The two who talk about held freight.</summary>
public enum HoldSide
{
    Shipper,
    Terminal,
}

public static class HoldSides
{
    public static HoldSide Other(this HoldSide side) => side == HoldSide.Shipper ? HoldSide.Terminal : HoldSide.Shipper;
}
