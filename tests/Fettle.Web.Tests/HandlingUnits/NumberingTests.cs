using System.Net;
using System.Text.Json.Nodes;
using Fettle.Engineering.Identification;
using Fettle.Readiness.Pickups;
using Fettle.Testing;
using Fettle.Web.HandlingUnits;
using Marten;

namespace Fettle.Web.Tests.HandlingUnits;

/// <summary>Every physical unit of a submitted pickup gets a number, and is found by it.</summary>
public sealed class NumberingTests(SharedPortal shared)
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Each_unit_of_a_line_gets_an_SSCC_of_its_shipper()
    {
        var pickup = await SubmittedAsync(await shared.ClerkAsync());

        Assert.Equal([("A1", 1), ("A1", 2), ("A1", 3), ("A1", 4)], pickup.Numbers.Select(number => (number.Reference, number.Index)));
        Assert.All(pickup.Numbers, number => Assert.Equal("9521101", number.Sscc!.Value[1..8]));
        Assert.Equal(4, pickup.Numbers.Select(number => number.Sscc).Distinct().Count());
    }

    [Fact]
    public async Task A_shipper_without_a_company_prefix_gets_plain_numbers_only()
    {
        var pickup = await SubmittedAsync(await shared.OtherClerkAsync());

        Assert.Equal(4, pickup.Numbers.Count);
        Assert.All(pickup.Numbers, number => Assert.Null(number.Sscc));
    }

    [Fact]
    public async Task Twenty_submissions_at_once_never_give_a_number_twice()
    {
        var clerk = await shared.ClerkAsync();
        var pickups = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => SubmittedAsync(clerk)));
        Assert.Equal(80, pickups.SelectMany(pickup => pickup.Numbers).Select(number => number.Sscc).Distinct().Count());
    }

    [Fact]
    public async Task A_pickup_of_more_units_than_can_be_numbered_is_refused_in_words()
    {
        var clerk = await shared.ClerkAsync();
        var freight = Freight.Sound();
        var line = freight["handlingUnits"]![0]!;
        for (var i = 2; i <= 3; i++)
        {
            var more = line.DeepClone();
            more["reference"] = $"A{i}";
            more["quantity"] = 999;
            freight["handlingUnits"]!.AsArray().Add(more);
        }

        var declared = await clerk.PostAsync("/api/v1/pickups", freight.AsPickup(DateTimeOffset.UtcNow));
        Assert.Equal(HttpStatusCode.Created, declared.Status);
        var refused = await clerk.PostAsync($"/api/v1/pickups/{declared.Json.At("id")}/submission", new JsonObject());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Equal("A pickup has at most 2000 handling units, each with a number and a label. Submit the rest as another pickup.", refused.Json.At("detail"));
    }

    [Fact]
    public async Task A_unit_is_found_by_whatever_of_its_label_is_scanned_or_typed()
    {
        var pickup = await SubmittedAsync(await shared.ClerkAsync());
        var (third, number) = (pickup.Numbers[2], pickup.Header.Number);
        var code = third.Sscc!.Value;
        foreach (var scanned in (string[])
        [
            code, $"(00){code}", $"00{code}", $"]C100{code}", $"\u001D00{code}", $" {code[..5]} {code[5..]} ",
            $"{number}/A1-3", $"{number.ToLowerInvariant()}/A1-3", $"{number}#3", number.ToLowerInvariant() + "#3",
        ])
        {
            var found = Assert.Single(await FindAsync(scanned));
            Assert.Equal((pickup.Id, "A1", 3, 3, code), (found.PickupId, found.Reference, found.Index, found.Place, found.Sscc));
            Assert.Equal(
                (pickup.Header.ShipperId, pickup.Header.SiteId, pickup.Header.CarrierId, pickup.Header.TerminalId),
                (found.ShipperId, found.SiteId, found.CarrierId, found.TerminalId));
        }
    }

    [Fact]
    public async Task A_unit_without_an_SSCC_is_found_by_its_own_number()
    {
        var pickup = await SubmittedAsync(await shared.OtherClerkAsync());
        Assert.Equal(4, Assert.Single(await FindAsync($"{pickup.Header.Number}/A1-4")).Index);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("#")]
    [InlineData("/")]
    [InlineData("000000000000000000")]
    [InlineData("%' or 1=1 --")]
    [InlineData("\u001D]C1")]
    public async Task What_is_no_number_of_a_unit_finds_nothing(string? scanned) => Assert.Empty(await FindAsync(scanned));

    [Fact]
    public void A_wrong_check_digit_is_no_SSCC()
    {
        var code = Sscc.Create(0, "9521101", 77).Value;
        Assert.Equal(code, UnitLookup.SsccIn("00" + code)!.Value);
        Assert.Null(UnitLookup.SsccIn(code[..^1] + (code[^1] == '0' ? '1' : '0')));
    }

    private async Task<IReadOnlyList<NumberedUnit>> FindAsync(string? scanned)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return await UnitLookup.FindAsync(session, scanned, Cancel);
    }

    private async Task<Pickup> SubmittedAsync(HttpClient clerk)
    {
        var declared = await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow));
        Assert.Equal(HttpStatusCode.Created, declared.Status);
        var id = Guid.Parse(declared.Json.At("id")!);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return (await session.LoadAsync<Pickup>(id, Cancel))!;
    }
}
