namespace Fettle.Web.Tests.FloorUse;

/// <summary>Assumptions that cannot be meant are named at start.</summary>
public sealed class WorthSettingsTests
{
    [Fact]
    public void The_defaults_can_be_used() => Assert.True(SettingsValidator.Instance.Validate(new Settings()).IsValid);

    [Theory]
    [InlineData(-0.01, 0.3, "UTC", "Fettle:Worth:CostPerTrailerMile")]
    [InlineData(1000.01, 0.3, "UTC", "Fettle:Worth:CostPerTrailerMile")]
    [InlineData(2.5, 1.01, "UTC", "Fettle:Worth:ShareOffered")]
    [InlineData(2.5, double.NaN, "UTC", "Fettle:Worth:ShareOffered")]
    [InlineData(2.5, 0.3, "Saltgrass/Harbor", "Fettle:Digest:TimeZone")]
    [InlineData(2.5, 0.3, "", "Fettle:Digest:TimeZone")]
    public void What_cannot_be_meant_is_named(double cost, double share, string zone, string setting)
    {
        var settings = new Settings { Worth = new() { CostPerTrailerMile = (decimal)cost, ShareOffered = share }, Digest = new() { TimeZone = zone } };

        Assert.StartsWith(setting, Assert.Single(SettingsValidator.Instance.Validate(settings).Errors).ErrorMessage, StringComparison.Ordinal);
    }
}
