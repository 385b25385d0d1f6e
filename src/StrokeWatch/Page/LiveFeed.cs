using System.Threading.Channels;

namespace StrokeWatch.Page;

/// <summary>Hands events to all who follow. Who is slow loses the oldest, which is counted; who publishes never waits.</summary>
internal sealed class LiveFeed
{
    /// <summary>How many may follow at once.</summary>
    public const int MostFollowers = 100;

    /// <summary>How many events wait for one follower at most: about two seconds of them.</summary>
    public const int Depth = 4;

    private readonly Lock gate = new();
    private volatile Channel<LiveFrame>[] followers = [];
    private long dropped;
    private bool closed;

    /// <summary>Gets how many follow.</summary>
    public int Followers => followers.Length;

    /// <summary>Gets how many events slow followers have lost.</summary>
    public long Dropped => Interlocked.Read(ref dropped);

    /// <summary>Begins to follow; null where too many do, or it is over.</summary>
    public Channel<LiveFrame>? Join()
    {
        lock (gate)
        {
            if (closed || followers.Length >= MostFollowers)
            {
                return null;
            }

            var follower = Channel.CreateBounded<LiveFrame>(
                new BoundedChannelOptions(Depth) { FullMode = BoundedChannelFullMode.DropOldest, SingleReader = true }, _ => Interlocked.Increment(ref dropped));
            followers = [.. followers, follower];
            return follower;
        }
    }

    /// <summary>Ends to follow.</summary>
    public void Leave(Channel<LiveFrame> follower)
    {
        lock (gate)
        {
            followers = [.. followers.Where(other => other != follower)];
        }
    }

    /// <summary>Hands an event to all who follow.</summary>
    public void Publish(LiveFrame frame)
    {
        foreach (var follower in followers)
        {
            _ = follower.Writer.TryWrite(frame);
        }
    }

    /// <summary>Ends it for all.</summary>
    public void Close()
    {
        lock (gate)
        {
            closed = true;
            foreach (var follower in followers)
            {
                _ = follower.Writer.TryComplete();
            }
        }
    }
}
