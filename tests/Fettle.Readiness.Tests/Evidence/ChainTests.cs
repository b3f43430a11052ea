using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using CsCheck;
using Fettle.Readiness.Evidence;

namespace Fettle.Readiness.Tests.Evidence;

public class ChainTests
{
    private static readonly Guid Pickup = new("0198a1c0-0000-7000-8000-000000000001");
    private static readonly DateTimeOffset At = new(2026, 3, 5, 21, 40, 12, TimeSpan.Zero);

    [Fact]
    public void Each_link_is_the_hash_of_the_one_before_and_the_record_s_line()
    {
        var records = Records(2);
        var links = Sealed(records);

        // By hand, so that anybody can follow it without this program.
        var origin = SHA256.HashData(Encoding.ASCII.GetBytes("fettle evidence 1\n0198a1c0-0000-7000-8000-000000000001"));
        var first = SHA256.HashData([.. origin, .. """{"at":"2026-03-05T21:41:12.000000Z","data":{"a":[1.50,"é<"],"b":null},"kind":"thing_1","number":1,"source":"event:0198a1c0-0000-7000-8000-000000000001:1"}"""u8]);
        Assert.Equal(Convert.ToHexStringLower(first), links[0].Hash);
        Assert.Equal(Chain.Hash(links[0].Hash, records[1].Line(2)), links[1].Hash);
        Assert.Equal(links[1].Hash, Chain.Head(Pickup, links));
        Assert.Equal(Convert.ToHexStringLower(origin), Chain.Head(Pickup, []));
    }

    [Fact]
    public void The_order_in_which_keys_are_kept_is_no_matter()
    {
        var one = Records(1)[0];
        Assert.Equal(one.Line(1), (one with { Data = """{ "b" : null, "a": [1.50, "\u00e9\u003c"] }""" }).Line(1));
        Assert.NotEqual(one.Line(1), (one with { Data = """{"a":[1.5,"é<"],"b":null}""" }).Line(1));
    }

    [Fact]
    public void Sealing_again_adds_only_what_is_new_whatever_order_it_is_seen_in()
    {
        var records = Records(4);
        var early = Sealed([records[0], records[2]]);
        // Number two was committed late: it is linked after what was there, and the old head stays in the chain.
        var later = Chain.Seal(Pickup, early, records);
        Assert.Empty(later.Faults);
        Assert.Equal(early, later.Links.Take(2));
        Assert.Equal([records[1].Source, records[3].Source], later.Links.Skip(2).Select(link => link.Source));
        Assert.Equal(later.Links, Chain.Seal(Pickup, later.Links, records).Links);
    }

    [Fact]
    public void A_record_that_was_changed_or_lost_in_the_store_is_named_and_nothing_is_added()
    {
        var records = Records(4);
        var links = Sealed([.. records.Take(3)]);

        var changed = Chain.Seal(Pickup, links, [records[0], records[1] with { Data = "{}" }, records[2], records[3]]);
        Assert.Equal([new(FaultKind.Changed, 2, "thing_2", At.AddMinutes(2))], changed.Faults);
        Assert.Same(links, changed.Links);

        var lost = Chain.Seal(Pickup, links, [records[0], records[2], records[3]]);
        Assert.Equal([new(FaultKind.Missing, 2, "thing_2", At.AddMinutes(2))], lost.Faults);
        Assert.Same(links, lost.Links);
    }

    [Fact]
    public void Lines_as_they_were_chained_agree() => Assert.Empty(Compare(Lines(Records(5))));

    [Fact]
    public void A_changed_line_is_named()
    {
        var lines = Lines(Records(5));
        lines[2] = Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(lines[2].Span).Replace("1.50", "9.50", StringComparison.Ordinal));
        Assert.Equal([new(FaultKind.Changed, 3, "thing_3", At.AddMinutes(3))], Compare(lines));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(4)]
    public void A_missing_line_is_named(int which)
    {
        var lines = Lines(Records(5));
        lines.RemoveAt(which);
        Assert.Equal([new(FaultKind.Missing, which + 1, $"thing_{which + 1}", At.AddMinutes(which + 1))], Compare(lines));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    [InlineData(5)]
    public void An_added_line_is_named(int where)
    {
        var lines = Lines(Records(5));
        lines.Insert(where, new EvidenceRecord("event:x:1", "hold_decided", At, "{}").Line(9));
        Assert.Equal([new(FaultKind.Added, where + 1, "hold_decided", At)], Compare(lines));
    }

    [Fact]
    public void A_line_that_is_not_even_JSON_is_named_by_its_place()
    {
        var lines = Lines(Records(2));
        lines.Add("nonsense"u8.ToArray());
        Assert.Equal([new(FaultKind.Added, 3, "", null)], Compare(lines, 2));
    }

    [Fact]
    public void Lines_that_changed_places_are_named()
    {
        var lines = Lines(Records(5));
        (lines[1], lines[3]) = (lines[3], lines[1]);
        var faults = Compare(lines);
        Assert.All(faults, fault => Assert.Equal(FaultKind.Reordered, fault.Kind));
        Assert.Equal([2, 3], faults.Select(fault => fault.Number).Order());
    }

    [Fact]
    public void A_line_changed_and_another_lost_are_both_named()
    {
        var lines = Lines(Records(5));
        lines[1] = "{}"u8.ToArray();
        lines.RemoveAt(3);
        Assert.Equal([(FaultKind.Changed, 2), (FaultKind.Missing, 4)], Compare(lines).Select(fault => (fault.Kind, fault.Number)));
    }

    [Fact]
    public void Any_byte_that_is_flipped_is_found()
    {
        var (records, links) = (Records(4), Sealed(Records(4)));
        Gen.Select(Gen.Int[0, 3], Gen.Int[0, 10_000], Gen.Int[1, 255]).Sample((line, at, flip) =>
        {
            var lines = Lines(records);
            var bytes = lines[line].ToArray();
            bytes[at % bytes.Length] ^= (byte)flip;
            lines[line] = bytes;
            var fault = Assert.Single(Chain.Compare(Pickup, links, lines));
            Assert.Equal((FaultKind.Changed, line + 1), (fault.Kind, fault.Number));
        });
    }

    [Fact]
    public void The_file_of_another_pickup_does_not_pass_for_this_one() =>
        Assert.NotEmpty(Chain.Compare(Guid.Empty, Sealed(Records(1)), Lines(Records(1))));

    private static IReadOnlyList<ChainFault> Compare(List<ReadOnlyMemory<byte>> lines, int chained = 5) => Chain.Compare(Pickup, Sealed(Records(chained)), lines);

    private static List<ReadOnlyMemory<byte>> Lines(IReadOnlyList<EvidenceRecord> records) => [.. records.Select((record, i) => (ReadOnlyMemory<byte>)record.Line(i + 1))];

    private static IReadOnlyList<ChainLink> Sealed(IReadOnlyList<EvidenceRecord> records)
    {
        var (links, faults) = Chain.Seal(Pickup, [], records);
        Assert.Empty(faults);
        return links;
    }

    private static EvidenceRecord[] Records(int count) =>
        [.. Enumerable.Range(1, count).Select(i => EvidenceRecord.OfEvent(Pickup, i, $"thing_{i}", At.AddMinutes(i), """{"a":[1.50,"é<"],"b":null}"""))];
}
