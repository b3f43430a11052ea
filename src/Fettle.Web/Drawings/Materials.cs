using Fettle.Readiness.Declarations;

namespace Fettle.Web.Drawings;

/// <summary>How a platform's material looks: wood brown, all else grey.</summary>
internal static class Materials
{
    public static (Look Face, Look Side) Of(Platform platform) => platform.Material switch
    {
        PlatformMaterial.Wood => (Look.Wood, Look.WoodSide),
        PlatformMaterial.Plastic or PlatformMaterial.Metal or PlatformMaterial.Paperboard => (Look.Plain, Look.PlainSide),
    };
}
