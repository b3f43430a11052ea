using Fettle.Web.Demo;

namespace Fettle.Web.Tests.Demo;

public sealed class WelcomeTests
{
    private static readonly Scenario Demo = Scenario.Read(Scenario.Folder);

    [Fact]
    public void It_names_the_address_the_password_every_sign_in_and_every_key()
    {
        var keys = Demo.People.ApiKeys.Select((key, i) => new ToldKey(key, $"Key{i}", $"fettle_{i}")).ToArray();

        var text = Welcome.Text(Demo, keys, ["http://localhost:5180"]);

        Assert.Contains("http://localhost:5180", text, StringComparison.Ordinal);
        Assert.Contains(Demo.People.Password, text, StringComparison.Ordinal);
        Assert.All(Demo.People.People, person => Assert.Contains(person.UserName, text, StringComparison.Ordinal));
        Assert.All(keys, key => Assert.Contains($"{key.Plain} ", text, StringComparison.Ordinal));
        Assert.All(keys, key => Assert.Contains(key.Key.Name, text, StringComparison.Ordinal));
    }

    [Fact]
    public void A_key_that_was_shown_before_is_not_shown_but_how_to_choose_one_is()
    {
        var text = Welcome.Text(Demo, [new(Demo.People.ApiKeys[0], "ShipperKey", null)], ["http://localhost:5180"]);

        Assert.Contains("Fettle__Demo__ShipperKey", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("http://[::]:8080", "http://localhost:8080")]
    [InlineData("http://0.0.0.0:8080", "http://localhost:8080")]
    [InlineData("http://*:8080", "http://localhost:8080")]
    [InlineData("https://portal.fettle.example", "https://portal.fettle.example")]
    public void An_address_is_one_that_a_browser_can_follow(string listens, string shown) =>
        Assert.Contains($" {shown}\n", Welcome.Text(Demo, [], [listens]).ReplaceLineEndings("\n"), StringComparison.Ordinal);
}
