using StrokeWatch.Page;
using Xunit;

namespace StrokeWatch.Tests.Page;

public sealed class LiveFeedTests
{
    [Fact]
    public async Task A_follower_who_never_reads_loses_the_oldest_events_which_are_counted_and_another_hears_all()
    {
        var feed = new LiveFeed();
        var (slow, quick) = (feed.Join()!, feed.Join()!);
        for (var i = 0; i < 1000; i++)
        {
            feed.Publish(Frame(i));
            Assert.Equal(Text(i), Read(await quick.Reader.ReadAsync()));
        }

        Assert.Equal(1000 - LiveFeed.Depth, feed.Dropped);
        for (var i = 1000 - LiveFeed.Depth; i < 1000; i++)
        {
            Assert.True(slow.Reader.TryRead(out var frame));
            Assert.Equal(Text(i), Read(frame));
        }

        Assert.False(slow.Reader.TryRead(out _));
    }

    [Fact]
    public void An_event_is_written_once_and_only_where_somebody_reads_it()
    {
        var feed = new LiveFeed();
        var written = 0;
        var followers = Enumerable.Range(0, 70).Select(_ => feed.Join()!).ToList();
        feed.Publish(new("status", () => new byte[] { (byte)('0' + Interlocked.Increment(ref written)) }));
        Assert.Equal(0, written);
        Assert.All(followers, follower => Assert.Equal("event: status\ndata: 1\n\n", follower.Reader.TryRead(out var frame) ? Read(frame) : ""));
        Assert.Equal(1, written);
    }

    [Fact]
    public async Task Only_so_many_may_follow_and_who_leaves_makes_room_and_the_end_is_the_end_for_all()
    {
        var feed = new LiveFeed();
        var followers = Enumerable.Range(0, LiveFeed.MostFollowers).Select(_ => feed.Join()!).ToList();
        Assert.Null(feed.Join());
        feed.Leave(followers[0]);
        Assert.NotNull(feed.Join());
        feed.Close();
        Assert.False(await followers[1].Reader.WaitToReadAsync());
        Assert.Null(feed.Join());
    }

    private static LiveFrame Frame(int i) => new("status", () => System.Text.Encoding.ASCII.GetBytes($"{i}"));

    private static string Text(int i) => $"event: status\ndata: {i}\n\n";

    private static string Read(LiveFrame frame) => System.Text.Encoding.ASCII.GetString(frame.Bytes.Span);
}
