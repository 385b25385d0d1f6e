namespace StrokeWatch.Outputs.Book;

/// <summary>The pages of tuning sessions: sessions, their answers, their trials.</summary>
public sealed class BookSessions
{
    private readonly BookConnection connection;

    internal BookSessions(BookConnection connection) => this.connection = connection;

    /// <summary>Begins a session; one that is open is given up for it.</summary>
    public BookSession Begin(string feeder, DateTimeOffset now, string? who, string step, string memory) => connection.Write(book =>
    {
        book.Run(
            "UPDATE tuning_session SET state = $abandoned, ended_ms = $now WHERE state = $open",
            ("abandoned", BookNames.Of(BookSessionState.Abandoned)), ("open", BookNames.Of(BookSessionState.Open)), ("now", now.ToUnixTimeMilliseconds()));
        var id = book.Insert(
            "tuning_session", ("feeder", feeder), ("started_ms", now.ToUnixTimeMilliseconds()), ("state", BookNames.Of(BookSessionState.Open)), ("who", who), ("step", step), ("memory", memory), ("turn", 0L));
        return Sessions(book, "WHERE id = $id", ("id", id))[0];
    });

    /// <summary>Gives the open session; null where there is none.</summary>
    public BookSession? Open() => connection.Read(book => Sessions(book, "WHERE state = $open", ("open", BookNames.Of(BookSessionState.Open))).FirstOrDefault());

    /// <summary>Gives all sessions in order.</summary>
    public IReadOnlyList<BookSession> All() => connection.Read(book => Sessions(book, "ORDER BY id"));

    /// <summary>Writes an answer and all that comes of it as one.</summary>
    /// <returns>The session as it stands after it; null where somebody else has answered since it was read, and nothing was written.</returns>
    public BookSession? Record(BookSession session, SessionMove move)
    {
        ArgumentNullException.ThrowIfNull(session);
        ArgumentNullException.ThrowIfNull(move);
        return connection.Write(book =>
        {
            var now = move.Utc.ToUnixTimeMilliseconds();
            if (book.Run(
                "UPDATE tuning_session SET step = $step, memory = $memory, who = $who, state = $state, ended_ms = $ended_ms, turn = turn + 1 WHERE id = $id AND turn = $turn AND state = $open",
                ("step", move.Step), ("memory", move.Memory), ("who", move.Who), ("state", BookNames.Of(move.State)), ("ended_ms", move.State == BookSessionState.Open ? null : now),
                ("id", session.Id), ("turn", session.Turn), ("open", BookNames.Of(BookSessionState.Open))) == 0)
            {
                return null;
            }

            book.Insert("tuning_answer", ("session_id", session.Id), ("utc_ms", now), ("step", move.Answered), ("answer", move.Answer), ("who", move.Who));
            if (move.LeavesOutLast is { } note)
            {
                book.Run("UPDATE tuning_trial SET left_out = 1, note = $note WHERE id = (SELECT max(id) FROM tuning_trial WHERE session_id = $session)", ("note", note), ("session", session.Id));
            }

            if (move.Trial is { } trial)
            {
                Insert(book, trial with { Session = session.Id });
            }

            if (move.Check is { } check)
            {
                BookChecks.Insert(book, check with { Session = session.Id });
            }

            if (move.Entry is { } entry)
            {
                BookEntries.Insert(book, entry with { Session = session.Id });
            }

            return Sessions(book, "WHERE id = $id", ("id", session.Id))[0];
        });
    }

    /// <summary>Adds a trial outside of a session's answers; gives its number.</summary>
    public long AddTrial(BookTrial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        return connection.Write(book => Insert(book, trial));
    }

    /// <summary>Gives the trials of a session in order; of all sessions and of none where it is null.</summary>
    public IReadOnlyList<BookTrial> Trials(long? session = null) => connection.Read(book => book.Rows(
        $"SELECT * FROM tuning_trial {(session is null ? "" : "WHERE session_id = $session ")}ORDER BY id", Trial, ("session", session)));

    /// <summary>Gives the answers of a session in order.</summary>
    public IReadOnlyList<BookStepAnswer> Answers(long session) => connection.Read(book => book.Rows(
        "SELECT * FROM tuning_answer WHERE session_id = $session ORDER BY id",
        row => new BookStepAnswer(row.Whole("id"), row.Whole("session_id"), row.Utc("utc_ms"), row.Word("step"), row.Word("answer"), row.WordOrNone("who")),
        ("session", session)));

    private static List<BookSession> Sessions(BookStatements book, string which, params (string Column, object? Value)[] values) => book.Rows(
        $"SELECT * FROM tuning_session {which}",
        row => new BookSession(
            row.Whole("id"), row.Word("feeder"), row.Utc("started_ms"), row.UtcOrNone("ended_ms"), BookNames.State(row.Word("state")), row.WordOrNone("who"),
            row.Word("step"), row.Word("memory"), row.Whole("turn")),
        values);

    private static long Insert(BookStatements book, BookTrial trial) => book.Insert(
        "tuning_trial",
        ("session_id", trial.Session), ("utc_ms", trial.Utc.ToUnixTimeMilliseconds()), ("rear", trial.Rear), ("front", trial.Front),
        ("pp_mm", trial.StrokeMetres * 1e3), ("uncertainty_mm", trial.UncertaintyMetres * 1e3), ("stroke_spread", trial.StrokeSpread), ("verdict", trial.Verdict), ("reason", trial.Reason),
        ("natural_frequency_hz", trial.NaturalHz), ("natural_frequency_uncertainty_hz", trial.NaturalUncertaintyHz), ("damping_ratio", trial.DampingRatio),
        ("voltage_ratio", trial.VoltageRatio), ("tray_change_kg", trial.TrayChangeKilograms), ("capture", trial.Capture), ("line_angle_deg", trial.LineAngleDegrees),
        ("strike", trial.Strike is { } strike ? strike ? 1L : 0L : null), ("note", trial.Note), ("left_out", trial.LeftOut ? 1L : 0L));

    private static BookTrial Trial(BookRow row) => new()
    {
        Id = row.Whole("id"),
        Session = row.WholeOrNone("session_id"),
        Utc = row.Utc("utc_ms"),
        Rear = row.Word("rear"),
        Front = row.WordOrNone("front"),
        StrokeMetres = row.Number("pp_mm") / 1e3,
        UncertaintyMetres = row.Number("uncertainty_mm") / 1e3,
        StrokeSpread = row.Number("stroke_spread"),
        Verdict = row.Word("verdict"),
        Reason = row.WordOrNone("reason"),
        NaturalHz = row.Number("natural_frequency_hz"),
        NaturalUncertaintyHz = row.Number("natural_frequency_uncertainty_hz"),
        DampingRatio = row.Number("damping_ratio"),
        VoltageRatio = row.Number("voltage_ratio"),
        TrayChangeKilograms = row.Number("tray_change_kg"),
        Capture = row.WordOrNone("capture"),
        LineAngleDegrees = row.Number("line_angle_deg"),
        Strike = row.WholeOrNone("strike") is { } strike ? strike != 0 : null,
        Note = row.WordOrNone("note"),
        LeftOut = row.Whole("left_out") != 0,
    };
}
