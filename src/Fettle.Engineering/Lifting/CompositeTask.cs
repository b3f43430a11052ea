namespace Fettle.Engineering.Lifting;

/// <summary>A task as the composite index takes it.</summary>
/// <param name="FrequencyIndependentIndex">Load over the limit reckoned with a frequency multiplier of 1, zero or more.</param>
/// <param name="LiftsPerMinute">Its lifts a minute, above zero.</param>
/// <param name="HandsHigh">Whether it begins with the hands at 30 in (75 cm) or above.</param>
public readonly record struct CompositeTask(double FrequencyIndependentIndex, double LiftsPerMinute, bool HandsHigh = false);
