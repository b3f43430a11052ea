using Fettle.Web.Tests.Identity;

namespace Fettle.Web.Tests.Security;

public sealed class ForwardedHeaderTests
{
    [Fact]
    public async Task Without_configured_proxies_nobody_is_believed_about_where_a_request_came_from() =>
        Assert.Equal("http localhost 127.0.0.1", await AskAsync([], "127.0.0.1"));

    [Theory]
    [InlineData("10.0.0.7", "10.0.0.7")]
    [InlineData("10.0.0.0/8", "10.99.1.2")]
    public async Task A_configured_proxy_is_believed(string proxies, string proxy) =>
        Assert.Equal("https fettle.example 203.0.113.9", await AskAsync([proxies], proxy));

    [Fact]
    public async Task Others_are_not_believed_beside_a_configured_proxy() =>
        Assert.Equal("http localhost 10.0.0.8", await AskAsync(["10.0.0.7"], "10.0.0.8"));

    private static async Task<string> AskAsync(string[] proxies, string from)
    {
        var door = new FrontDoor { Settings = new() { Proxies = proxies } };
        await door.InitializeAsync();
        await using var stopped = door;
        var answer = await door.Browser().GetAsync(
            "/address",
            (FrontDoor.AddressHeader, from),
            ("X-Forwarded-For", "203.0.113.9"),
            ("X-Forwarded-Proto", "https"),
            ("X-Forwarded-Host", "fettle.example"));
        return answer.Text;
    }
}
