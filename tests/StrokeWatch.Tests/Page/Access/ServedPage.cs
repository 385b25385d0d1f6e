using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Page;
using StrokeWatch.Page.Access;
using StrokeWatch.Pipeline;
using StrokeWatch.Pipeline.Alarms;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Tests.Page.Access;

/// <summary>A page that is really served, with its alarms and its store, in this process: Olga runs the feeder, Tom works on it, Erika answers for it.</summary>
internal sealed class ServedPage : IDisposable, ILogEventSink
{
    public const string Password = "four blue trays";

    /// <summary>The fewest that are read: tests need not wait as long as guessers must.</summary>
    public const int Iterations = 100_000;

    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-page-").FullName;
    private readonly SqliteStore store;
    private readonly AlarmDesk desk;
    private readonly PageShelf shelf;
    private readonly Thread measuring;
    private readonly CancellationTokenSource stop = new();
    private readonly System.Collections.Concurrent.ConcurrentQueue<AlarmTransition> transitions = new();
    private readonly List<string> said = [];

    public ServedPage(Func<PageSettings, PageSettings>? change = null, bool users = true, Func<PageSight, PageSight>? sees = null)
    {
        UsersPath = Path.Combine(folder, "page-users.toml");
        if (users)
        {
            new UsersFile(
            [
                new("Olga", PageRole.Operator, PasswordHash.Make(Password, Iterations)),
                new("Tom", PageRole.Technician, PasswordHash.Make(Password, Iterations)),
                new("Erika Ley", PageRole.Engineer, PasswordHash.Make(Password, Iterations)),
            ], []).Write(UsersPath);
        }

        store = new(new() { Path = Path.Combine(folder, "store.db"), Feeder = "Sand feeder" }, Time);
        var ear = new AlarmLog(Logger.None);
        desk = new(AlarmTable.Of(new()), new StoreJournal(store), ear, ear, Time);
        var settings = new PageSettings(new(IPAddress.Loopback, 0), [], Needed: true) { Users = users ? UsersPath : null };
        var sight = new PageSight
        {
            Feeder = Feeder,
            Store = store,
            StorePath = Path.Combine(folder, "store.db"),
            Lives = desk,
            Table = AlarmTable.Of(new()),
            Sources = [],
            Outputs = [],
            Machine = () => null,
            Tuning = new(Feeder, Path.Combine(folder, "sand.book.sqlite"), BookRenames: false, Baseline: null),
        };
        var address = new TaskCompletionSource<string>();
        shelf = PageShelf.Open(change is null ? settings : change(settings), sees is null ? sight : sees(sight), Time, new LoggerConfiguration().WriteTo.Sink(this).CreateLogger(), words => address.TrySetResult(words));
        measuring = new(Measure) { IsBackground = true };
        measuring.Start();
        Address = new(address.Task.WaitAsync(TimeSpan.FromSeconds(20)).GetAwaiter().GetResult()["Page: ".Length..]);
        Client = Browser();
    }

    public static FeederDescription Feeder { get; } = new()
    {
        Name = "Sand feeder",
        Drive = new(50, 1, Free: false),
        Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.9)),
    };

    public ShiftedTime Time { get; } = new();

    public Uri Address { get; }

    public string UsersPath { get; }

    /// <summary>Gets a client with the manners of a browser on the page, and a jar for cookies.</summary>
    public HttpClient Client { get; }

    public IReadOnlyList<string> Log
    {
        get
        {
            lock (said)
            {
                return [.. said];
            }
        }
    }

    public AlarmView? Alarm(AlarmKind kind) => desk.Now.FirstOrDefault(alarm => alarm.Id.Kind == kind);

    public IReadOnlyList<BookEntry> Book()
    {
        using var book = MachineBook.OpenReader(Path.Combine(folder, "sand.book.sqlite"));
        return book.Entries.All();
    }

    /// <summary>Raises or clears an alarm, and waits until it shows.</summary>
    public void Raise(AlarmKind kind, bool raised = true)
    {
        transitions.Enqueue(new(kind, raised, 1, null, raised ? $"{kind} stands." : $"{kind} is over."));
        Assert(() => Alarm(kind) is { } view && (view.Beneath is AlarmState.Unacknowledged or AlarmState.Acknowledged) == raised);
    }

    public HttpClient Browser(HttpMessageHandler? handler = null)
    {
        var client = new HttpClient(handler ?? new SocketsHttpHandler()) { BaseAddress = Address };
        client.DefaultRequestHeaders.Add("Origin", Address.GetLeftPart(UriPartial.Authority));
        client.DefaultRequestHeaders.Add(PageAccess.Header, "1");
        return client;
    }

    /// <summary>Gives a client that has nothing but a token, as a program.</summary>
    public HttpClient Program(string token)
    {
        var client = new HttpClient { BaseAddress = Address };
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        return client;
    }

    public static Task<HttpResponseMessage> SignIn(HttpClient client, string name, string password = Password) =>
        Post(client, "api/v1/sign-in", new JsonObject { ["name"] = name, ["password"] = password });

    public static Task<HttpResponseMessage> Post(HttpClient client, string path, JsonObject? body = null) =>
        client.PostAsync(path, body is null ? null : new StringContent(body.ToJsonString(), Encoding.UTF8, "application/json"));

    public static async Task<(HttpStatusCode Status, JsonNode Said)> Answer(Task<HttpResponseMessage> asked)
    {
        using var answer = await asked;
        return (answer.StatusCode, JsonNode.Parse(await answer.Content.ReadAsStringAsync())!);
    }

    void ILogEventSink.Emit(LogEvent logEvent)
    {
        lock (said)
        {
            said.Add(logEvent.RenderMessage(System.Globalization.CultureInfo.InvariantCulture));
        }
    }

    public void Dispose()
    {
        Client.Dispose();
        shelf.Dispose();
        stop.Cancel();
        measuring.Join();
        store.Dispose();
        stop.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private static void Assert(Func<bool> come) => Xunit.Assert.True(SpinWait.SpinUntil(come, TimeSpan.FromSeconds(10)));

    /// <summary>What the measuring thread does between two reads.</summary>
    private void Measure()
    {
        while (!stop.IsCancellationRequested)
        {
            while (transitions.TryDequeue(out var transition))
            {
                desk.Alarm(transition);
            }

            desk.Deliver();
            _ = stop.Token.WaitHandle.WaitOne(5);
        }

        desk.Finish();
    }
}
