using System.Net;
using Fettle.Readiness.Holds;
using Fettle.Testing;
using Fettle.Web.Tests.Inspections;
using Marten;

namespace Fettle.Web.Tests.Scans;

/// <summary>From a label to the freight that carries it.</summary>
public sealed class ScanTests(SharedPortal shared)
{
    [Theory]
    [InlineData("{0}")]
    [InlineData("00{0}")]
    [InlineData("(00){0}")]
    [InlineData("]C100{0}")]
    public async Task A_scanned_unit_is_opened_at_once(string scanned)
    {
        var pickup = await shared.SoundAsync();
        var unit = pickup.Numbers[2];

        var answer = await ScanAsync("rita", scanned.Replace("{0}", unit.Sscc!.Value, StringComparison.Ordinal));

        Assert.Equal(HttpStatusCode.Redirect, answer.Status);
        Assert.Equal($"/inspections/new?pickup={pickup.Id}&line=A1&unit=3&sscc={unit.Sscc.Value}", answer.Location);
        Assert.Equal(HttpStatusCode.OK, (await (await shared.PersonAsync("rita")).GetAsync(answer.Location!)).Status);
    }

    [Fact]
    public async Task A_wrong_check_digit_is_told_with_the_one_that_fits()
    {
        var code = (await shared.SoundAsync()).Numbers[0].Sscc!.Value;
        var right = code[^1] - '0';
        var wrong = code[..17] + ((right + 3) % 10);

        var answer = await ScanAsync("rita", wrong);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var said = (await answer.PageAsync()).QuerySelector("#code-error")!.TextContent;
        Assert.Contains($"its last digit is {(right + 3) % 10}, and to the others belongs {right}", said);
        Assert.Contains(wrong, (await answer.PageAsync()).QuerySelector("#code")!.GetAttribute("value"));
    }

    [Fact]
    public async Task A_pickup_of_one_line_is_opened_and_of_several_they_are_listed()
    {
        var one = await shared.SoundAsync();
        var freight = Freight.Sound();
        var second = freight["handlingUnits"]![0]!.DeepClone();
        second["reference"] = "A2";
        freight["handlingUnits"]!.AsArray().Add(second);
        var two = await shared.SubmittedAsync(freight);

        Assert.Equal($"/inspections/new?pickup={one.Id}&line=A1", (await ScanAsync("rita", one.Header.Number)).Location);
        var listed = await ScanAsync("rita", two.Header.Number.ToLowerInvariant());
        Assert.Equal(HttpStatusCode.OK, listed.Status);
        Assert.Equal([$"{two.Header.Number}/A1", $"{two.Header.Number}/A2"], (await listed.PageAsync()).QuerySelectorAll(".number-name").Select(link => link.TextContent));
    }

    [Fact]
    public async Task A_hold_and_a_units_own_number_lead_to_their_line()
    {
        var hold = (await shared.HeldAsync())[0];

        Assert.Equal($"/inspections/new?pickup={hold.Placed.PickupId}&line=B1", (await ScanAsync("rita", hold.Placed.Number)).Location);
        Assert.Equal($"/inspections/new?pickup={hold.Placed.PickupId}&line=B1&unit=1", (await ScanAsync("rita", $"{hold.Placed.Number}-1")).Location);
        Assert.Equal($"/inspections/new?pickup={hold.Placed.PickupId}&line=B1&unit=1", (await ScanAsync("rita", $"{hold.Placed.Pickup.Number}#1")).Location);
    }

    [Fact]
    public async Task What_comes_to_another_terminal_is_not_found()
    {
        var pickup = await shared.SoundAsync();
        foreach (var code in (string[])[pickup.Numbers[0].Sscc!.Value, pickup.Header.Number, $"{pickup.Header.Number}/A1-1"])
        {
            var answer = await ScanAsync("otto", code);
            Assert.Equal(HttpStatusCode.NotFound, answer.Status);
            Assert.Contains("Nothing that comes to your terminal", answer.Text);
        }
    }

    [Theory]
    [InlineData("%00")]
    [InlineData("'; drop table x; --")]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("99999999999999999999999999999999999999999999999999999999999999999999")]
    [InlineData("\ud800")]
    [InlineData("(00)")]
    [InlineData("%")]
    public async Task Nonsense_is_answered_in_words(string code)
    {
        var answer = await ScanAsync("rita", code);

        Assert.True(answer.Status is HttpStatusCode.NotFound or HttpStatusCode.UnprocessableEntity, $"{answer.Status}");
        Assert.NotNull((await answer.PageAsync()).QuerySelector("#code-error"));
        Assert.DoesNotContain("<script>alert", answer.Text);
    }

    [Fact]
    public async Task Only_this_page_may_use_the_camera()
    {
        var rita = await shared.PersonAsync("rita");

        Assert.Contains("camera=self", (await rita.GetAsync("/scan")).Headers["Permissions-Policy"]);
        Assert.DoesNotContain("unsafe", (await rita.GetAsync("/scan")).Headers["Content-Security-Policy"]);
        Assert.Contains("camera=()", (await rita.GetAsync("/holds")).Headers["Permissions-Policy"]);
    }

    [Fact]
    public async Task An_inspection_whose_hold_nobody_placed_waits_on_the_page()
    {
        var pickup = await shared.SoundAsync();
        var id = await shared.InspectedAsync(pickup, body => body["measured"] = new System.Text.Json.Nodes.JsonObject { ["wrapTurns"] = 0 });
        var rita = await shared.PersonAsync("rita");

        Assert.NotNull((await (await rita.GetAsync("/scan")).PageAsync()).QuerySelector($"a[href='/inspections/{id}']"));
        await (await shared.ReviewerAsync()).PostAsync($"/api/v1/inspections/{id}/hold", new System.Text.Json.Nodes.JsonObject());
        Assert.Null((await (await rita.GetAsync("/scan")).PageAsync()).QuerySelector($"a[href='/inspections/{id}']"));
    }

    [Fact]
    public async Task The_API_finds_units_for_whoever_may_see_them()
    {
        var pickup = await shared.SoundAsync();
        var code = pickup.Numbers[1].Sscc!.Value;
        var path = $"/api/v1/handling-units?sscc={code}";

        foreach (var client in (HttpClient[])[await shared.ReviewerAsync(), await shared.ClerkAsync()])
        {
            var found = Assert.Single((await client.ReadAsync(path)).Json["handlingUnits"]!.AsArray())!;
            Assert.Equal((pickup.Id.ToString(), "A1", "2", code, "ready"), (found.At("pickupId"), found.At("reference"), found.At("index"), found.At("sscc"), found.At("verdict")));
        }

        Assert.Empty((await (await shared.OtherClerkAsync()).ReadAsync(path)).Json["handlingUnits"]!.AsArray());
        var wrong = await (await shared.ReviewerAsync()).ReadAsync($"/api/v1/handling-units?sscc={code[..17]}{(code[^1] - '0' + 1) % 10}");
        Assert.Equal(HttpStatusCode.BadRequest, wrong.Status);
        Assert.Contains($"belongs {code[^1]}", wrong.Json["errors"]!["sscc"]![0]!.ToString());
        Assert.Equal(HttpStatusCode.BadRequest, (await (await shared.ReviewerAsync()).ReadAsync("/api/v1/handling-units")).Status);
    }

    private async Task<Identity.Answer> ScanAsync(string who, string code) =>
        await (await shared.PersonAsync(who)).GetAsync($"/scan?code={Uri.EscapeDataString(code)}");
}
