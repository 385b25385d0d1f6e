using System.Buffers.Binary;
using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Sensors.Frames;

/// <summary>The 40 bytes at the head of every frame, the two after them in version 2 and the ten in version 3; <c>hardware-notes/framed-protocol.md</c> is their description.</summary>
internal readonly record struct FrameHead
{
    /// <summary>The first byte of a frame.</summary>
    public const byte Sync0 = 0xA5;

    /// <summary>The second byte of a frame.</summary>
    public const byte Sync1 = 0x57;

    /// <summary>Bytes of the head, the two sync bytes included.</summary>
    public const int Size = 40;

    /// <summary>Bytes of the check sum at the end.</summary>
    public const int TailSize = 2;

    /// <summary>Bytes that version 2 has between the head and its samples: the number of sensors, and which of them clipped.</summary>
    public const int SeveralSize = 2;

    /// <summary>Bytes that version 3 has after those of version 2: volts in one count, and the counts at full scale.</summary>
    public const int SupplySize = 8;

    /// <summary>The most sensors of one device.</summary>
    public const int MostSensors = SampleRun.MostSensors;

    /// <summary>The most bytes between head and check sum.</summary>
    public const int MaxPayload = 1024;

    /// <summary>The most bytes of firmware text in an announcement.</summary>
    public const int MaxText = 64;

    /// <summary>The most bytes of a frame.</summary>
    public const int MaxLength = Size + MaxPayload + TailSize;

    /// <summary>Makes an empty head of one sensor.</summary>
    public FrameHead()
    {
    }

    /// <summary>Gets the kind.</summary>
    public FrameKind Kind { get; init; }

    /// <summary>Gets the flags.</summary>
    public FrameFlags Flags { get; init; }

    /// <summary>Gets the length of the whole frame in bytes.</summary>
    public ushort Length { get; init; }

    /// <summary>Gets the sequence number: one more a frame, whatever its kind.</summary>
    public ushort Sequence { get; init; }

    /// <summary>Gets the number of this start of the device, another after each start; 0 where the device cannot tell.</summary>
    public ushort Start { get; init; }

    /// <summary>Gets the axes of each sensor, see <see cref="FrameAxes"/>.</summary>
    public byte Axes { get; init; }

    /// <summary>Gets the number of sensors, 1 to 8; version 1 has one.</summary>
    public byte Sensors { get; init; } = 1;

    /// <summary>Gets which sensors stood at the rail somewhere before the device's filter, bit 0 for the first; version 2 alone tells them apart.</summary>
    public byte ClippedSensors { get; init; }

    /// <summary>Gets how values are written.</summary>
    public SampleFormat Format { get; init; }

    /// <summary>Gets the rate in thousandths of a Hz.</summary>
    public uint RateMilliHz { get; init; }

    /// <summary>Gets the m/s² in one count.</summary>
    public float Scale { get; init; }

    /// <summary>Gets the counts at full scale.</summary>
    public uint Rail { get; init; }

    /// <summary>Gets the device's clock in µs when the first sample was taken.</summary>
    public ulong Clock { get; init; }

    /// <summary>Gets the running number of the first sample; of an announcement, of the next sample.</summary>
    public ulong Counter { get; init; }

    /// <summary>Gets the volts in one count of the supply's voltage; version 3 alone.</summary>
    public float SupplyScale { get; init; }

    /// <summary>Gets the counts at full scale of the supply's voltage; version 3 alone.</summary>
    public uint SupplyRail { get; init; }

    /// <summary>Gets whether the frame is of version 2 or 3, of a device that may have several sensors.</summary>
    public bool Several => Kind is FrameKind.SeveralSamples or FrameKind.SeveralAnnouncement || TakesSupply;

    /// <summary>Gets whether the frame is of version 3, of a device that takes the supply's voltage with its samples.</summary>
    public bool TakesSupply => Kind is FrameKind.SupplySamples or FrameKind.SupplyAnnouncement;

    /// <summary>Gets whether the frame holds samples.</summary>
    public bool HoldsSamples => Kind is FrameKind.Samples or FrameKind.SeveralSamples or FrameKind.SupplySamples;

    /// <summary>Gets the bytes before samples or text.</summary>
    public int HeadLength => Size + (Several ? SeveralSize : 0) + (TakesSupply ? SupplySize : 0);

    /// <summary>Gets the bytes of samples or text.</summary>
    public int PayloadLength => Length - HeadLength - TailSize;

    /// <summary>Gets the bytes of one sample of all axes of all sensors, and of the voltage after them where the frame has it.</summary>
    public int SampleBytes => (Sensors * FrameAxes.Count(Axes) + (TakesSupply ? 1 : 0)) * BytesOf(Format);

    /// <summary>Gets the samples in the frame, each of all its axes.</summary>
    public int SampleCount => HoldsSamples ? PayloadLength / SampleBytes : 0;

    /// <summary>Gives the bytes of one value.</summary>
    public static int BytesOf(SampleFormat format) => (int)format + 1;

    /// <summary>Reads a head from at least 42 bytes, as long as the shortest frame, unchecked; what version 3 has beyond them is read where it is there.</summary>
    public static FrameHead Read(ReadOnlySpan<byte> bytes)
    {
        var head = ReadFirst(bytes);
        if (head.Several)
        {
            head = head with { Sensors = bytes[Size], ClippedSensors = bytes[Size + 1] };
        }

        return !head.TakesSupply || bytes.Length < Size + SeveralSize + SupplySize ? head : head with
        {
            SupplyScale = BinaryPrimitives.ReadSingleLittleEndian(bytes[(Size + SeveralSize)..]),
            SupplyRail = BinaryPrimitives.ReadUInt32LittleEndian(bytes[(Size + SeveralSize + 4)..]),
        };
    }

    /// <summary>Writes the head into at least as many bytes as it has.</summary>
    public void Write(Span<byte> bytes)
    {
        bytes[0] = Sync0;
        bytes[1] = Sync1;
        bytes[2] = (byte)Kind;
        bytes[3] = (byte)Flags;
        BinaryPrimitives.WriteUInt16LittleEndian(bytes[4..], Length);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes[6..], Sequence);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes[8..], Start);
        bytes[10] = Axes;
        bytes[11] = (byte)Format;
        BinaryPrimitives.WriteUInt32LittleEndian(bytes[12..], RateMilliHz);
        BinaryPrimitives.WriteSingleLittleEndian(bytes[16..], Scale);
        BinaryPrimitives.WriteUInt32LittleEndian(bytes[20..], Rail);
        BinaryPrimitives.WriteUInt64LittleEndian(bytes[24..], Clock);
        BinaryPrimitives.WriteUInt64LittleEndian(bytes[32..], Counter);
        if (Several)
        {
            (bytes[Size], bytes[Size + 1]) = (Sensors, ClippedSensors);
        }

        if (TakesSupply)
        {
            BinaryPrimitives.WriteSingleLittleEndian(bytes[(Size + SeveralSize)..], SupplyScale);
            BinaryPrimitives.WriteUInt32LittleEndian(bytes[(Size + SeveralSize + 4)..], SupplyRail);
        }
    }

    /// <summary>Checks length and form, before the check sum is looked at; null where both are in order.</summary>
    public RejectReason? CheckForm()
    {
        if (Length < Size + TailSize || Length > MaxLength)
        {
            return RejectReason.Length;
        }

        var knownFlags = Several ? FrameFlags.Overflow : FrameFlags.Clipped | FrameFlags.Overflow;
        if (!(HoldsSamples || Kind is FrameKind.Announcement or FrameKind.SeveralAnnouncement or FrameKind.SupplyAnnouncement) || (Flags & ~knownFlags) != 0
            || Sensors is 0 or > MostSensors || ClippedSensors >> Sensors != 0 || Axes is 0 or > FrameAxes.All || Format is not (SampleFormat.Int16 or SampleFormat.Int24 or SampleFormat.Float32))
        {
            return RejectReason.Frame;
        }

        var fits = HoldsSamples ? PayloadLength > 0 && PayloadLength % SampleBytes == 0 : PayloadLength is >= 0 and <= MaxText;
        return fits ? null : RejectReason.Length;
    }

    /// <summary>Checks the values, once the check sum is right; null where they can be.</summary>
    public RejectReason? CheckRange() =>
        RateMilliHz is 0 or > 1_000_000_000 || !(Scale > 0 && Scale <= 1e6f) || Rail == 0 || Counter > (1UL << 52) || Clock > (1UL << 62)
        || (TakesSupply && (SupplyRail == 0 || !(SupplyScale > 0 && SupplyScale <= 1e6f)))
            ? RejectReason.Range
            : null;

    private static FrameHead ReadFirst(ReadOnlySpan<byte> bytes) => new()
    {
        Kind = (FrameKind)bytes[2],
        Flags = (FrameFlags)bytes[3],
        Length = BinaryPrimitives.ReadUInt16LittleEndian(bytes[4..]),
        Sequence = BinaryPrimitives.ReadUInt16LittleEndian(bytes[6..]),
        Start = BinaryPrimitives.ReadUInt16LittleEndian(bytes[8..]),
        Axes = bytes[10],
        Format = (SampleFormat)bytes[11],
        RateMilliHz = BinaryPrimitives.ReadUInt32LittleEndian(bytes[12..]),
        Scale = BinaryPrimitives.ReadSingleLittleEndian(bytes[16..]),
        Rail = BinaryPrimitives.ReadUInt32LittleEndian(bytes[20..]),
        Clock = BinaryPrimitives.ReadUInt64LittleEndian(bytes[24..]),
        Counter = BinaryPrimitives.ReadUInt64LittleEndian(bytes[32..]),
    };
}
