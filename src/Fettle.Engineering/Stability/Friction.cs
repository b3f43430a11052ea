namespace Fettle.Engineering.Stability;

/// <summary>What stands on what. Names begin with the load.</summary>
public enum Surfaces
{
    /// <summary>Sawn timber or a wooden pallet on plywood or fabric-base laminate: the usual trailer floor.</summary>
    WoodOnPlywood,

    /// <summary>Sawn timber or a wooden pallet on grooved aluminium.</summary>
    WoodOnGroovedAluminium,

    /// <summary>Sawn timber or a wooden pallet on stainless steel.</summary>
    WoodOnStainlessSteel,

    /// <summary>Sawn timber or a wooden pallet on shrink film.</summary>
    WoodOnShrinkFilm,

    /// <summary>Planed wood on plywood.</summary>
    PlanedWoodOnPlywood,

    /// <summary>Planed wood on grooved aluminium.</summary>
    PlanedWoodOnGroovedAluminium,

    /// <summary>Planed wood on stainless steel.</summary>
    PlanedWoodOnStainlessSteel,

    /// <summary>A plastic pallet on plywood.</summary>
    PlasticOnPlywood,

    /// <summary>A plastic pallet on grooved aluminium.</summary>
    PlasticOnGroovedAluminium,

    /// <summary>A plastic pallet on stainless steel.</summary>
    PlasticOnStainlessSteel,

    /// <summary>Cardboard on cardboard.</summary>
    CardboardOnCardboard,

    /// <summary>Cardboard on a wooden pallet.</summary>
    CardboardOnWood,

    /// <summary>A big bag on a wooden pallet.</summary>
    BigBagOnWood,

    /// <summary>Rough unpainted metal on rough unpainted metal.</summary>
    RoughMetalOnRoughMetal,

    /// <summary>Rough painted metal on the same.</summary>
    PaintedRoughMetal,

    /// <summary>Smooth painted metal on the same.</summary>
    PaintedSmoothMetal,

    /// <summary>Smooth metal on smooth metal.</summary>
    SmoothMetalOnSmoothMetal,

    /// <summary>A steel crate on plywood or fabric-base laminate.</summary>
    SteelCrateOnPlywood,

    /// <summary>A steel crate on grooved aluminium.</summary>
    SteelCrateOnGroovedAluminium,

    /// <summary>A steel crate on stainless steel.</summary>
    SteelCrateOnStainlessSteel,

    /// <summary>Rough concrete on sawn wood.</summary>
    RoughConcreteOnWood,

    /// <summary>Smooth concrete on sawn wood (figure from memory).</summary>
    SmoothConcreteOnWood,

    /// <summary>Anything on a rubber anti-slip mat (figure from memory).</summary>
    AntiSlipMat,

    /// <summary>Anything else: the code allows at most 0.30 (from memory), which is what we take.</summary>
    Unknown,
}

/// <summary>
/// Static friction of swept, clean surfaces free of frost, ice and snow, after the CTU Code (IMO/ILO/UNECE code of practice
/// for packing cargo transport units), annex 7, appendix 2. See docs/engineering/sliding.md.
/// </summary>
public static class Friction
{
    /// <summary>Once it slides, friction is 75 % of static (same appendix).</summary>
    public const double DynamicShare = 0.75;

    /// <summary>
    /// The coefficient of static friction. It is the same dry or wet for every pair that the code lists wet; those with
    /// cardboard, bags, metal on metal, concrete and mats it lists dry only, and so these hold dry only.
    /// </summary>
    public static double Static(Surfaces surfaces) => surfaces switch
    {
        Surfaces.WoodOnPlywood => .45,
        Surfaces.WoodOnGroovedAluminium => .40,
        Surfaces.WoodOnStainlessSteel => .30,
        Surfaces.WoodOnShrinkFilm => .30,
        Surfaces.PlanedWoodOnPlywood => .30,
        Surfaces.PlanedWoodOnGroovedAluminium => .25,
        Surfaces.PlanedWoodOnStainlessSteel => .20,
        Surfaces.PlasticOnPlywood => .20,
        Surfaces.PlasticOnGroovedAluminium => .15,
        Surfaces.PlasticOnStainlessSteel => .15,
        Surfaces.CardboardOnCardboard => .50,
        Surfaces.CardboardOnWood => .50,
        Surfaces.BigBagOnWood => .40,
        Surfaces.RoughMetalOnRoughMetal => .40,
        Surfaces.PaintedRoughMetal => .30,
        Surfaces.PaintedSmoothMetal => .20,
        Surfaces.SmoothMetalOnSmoothMetal => .20,
        Surfaces.SteelCrateOnPlywood => .45,
        Surfaces.SteelCrateOnGroovedAluminium => .30,
        Surfaces.SteelCrateOnStainlessSteel => .20,
        Surfaces.RoughConcreteOnWood => .70,
        Surfaces.SmoothConcreteOnWood => .55,
        Surfaces.AntiSlipMat => .60,
        Surfaces.Unknown => .30,
    };

    /// <summary>The coefficient once the load moves.</summary>
    public static double Dynamic(Surfaces surfaces) => Static(surfaces) * DynamicShare;
}
