using System.Globalization;
using Fettle.Web.Areas.Terminal.Boards;

namespace Fettle.Web.Tests.Boards;

public sealed class BoardWordsTests
{
    // Now is noon of Wednesday 25 November 2026 in Chicago.
    [Theory]
    [InlineData("2026-11-25T16:00Z", "2026-11-25T18:00Z", "10:00–12:00")]
    [InlineData("2026-11-27T16:00Z", "2026-11-27T18:00Z", "Fri 10:00–12:00")]
    [InlineData("2026-11-26T04:00Z", "2026-11-26T08:00Z", "22:00–Thu 02:00")]
    [InlineData("2026-11-25T04:00Z", "2026-11-25T08:00Z", "Tue 22:00–02:00")]
    [InlineData("2026-11-28T04:00Z", "2026-11-28T08:00Z", "Fri 22:00–Sat 02:00")]
    [InlineData("2026-12-08T16:00Z", "2026-12-08T18:00Z", "8 Dec 10:00–12:00")]
    public void The_day_of_a_window_is_said_where_it_is_not_today_and_once(string from, string to, string words) =>
        Assert.Equal(words, BoardWords.Window(At(from), At(to), "America/Chicago", At("2026-11-25T18:00Z")));

    private static DateTimeOffset At(string moment) => DateTimeOffset.Parse(moment, CultureInfo.InvariantCulture);
}
