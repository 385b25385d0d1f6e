namespace StrokeWatch.Assessment.Diagnosis.Checks;

/// <summary>
/// The guided checks in a safe order: those that need only eyes and ears come before those for which the machine is locked out. A new check is an entry here.
/// </summary>
/// <remarks>
/// How probable each finding is given each cause: common practice, no source. Over the choices of a check the probabilities given one cause come to 1.
/// </remarks>
public static class CheckTable
{
    /// <summary>Stands for a machine with no fault among the causes.</summary>
    public const string Healthy = "healthy";

    /// <summary>Gets all checks, in order.</summary>
    public static IReadOnlyList<GuidedCheck> All { get; } =
    [
        new("debris", "Material on, under and behind the tray", false,
            [
                "Stop the feeder and look with a lamp, hands off: material caked on the tray, pieces between tray and body, between tray and chute, behind the armature, among the leaves.",
                "What has to come out comes out later, with the feeder locked out.",
            ],
            [
                Choice("none", "nothing", "You found no material where it should not be.", "Build-up and jammed pieces are all but ruled out.", 0.85, ("tray-heavier", 0.25), ("tray-rubbing", 0.45), ("uneven-stroke", 0.6), (Healthy, 0.90)),
                Choice("built-up", "material caked on the tray", "You found material caked on the tray.", "A heavier tray fits: lock out, clean it off and measure again.", 0.10, ("tray-heavier", 0.70), ("tray-rubbing", 0.15), ("uneven-stroke", 0.3), (Healthy, 0.08)),
                Choice("jammed", "pieces jammed beside or under the tray", "You found pieces jammed beside or under the tray.", "A tray that rubs fits: lock out, take them out and measure again.", 0.05, ("tray-heavier", 0.05), ("tray-rubbing", 0.40), ("uneven-stroke", 0.1), (Healthy, 0.02)),
            ]),
        new("rubbing", "A tray that touches something", false,
            [
                "With the feeder running, hands and clothing off, walk round: look for bright spots, dust that dances in one place, a rattle or a hiss at chute, skirt, seal or housing.",
                "A tray wants a finger's width of air all round; look also whether the feeder has sunk on its mounts.",
            ],
            [
                Choice("free", "free all round", "You found the tray free all round.", "A tray that rubs is all but ruled out.", 0.93, ("tray-rubbing", 0.10), (Healthy, 0.97)),
                Choice("touches", "it touches or rubs", "You found the tray touching or rubbing on something.", "That alone can take the stroke down or make it sharp: give the tray room, then measure again.", 0.07, ("tray-rubbing", 0.90), (Healthy, 0.03)),
            ]),
        new("voltage", "Supply voltage at the controller", false,
            [
                "Read the controller's own meter while the feeder runs at full setting and hold it against the nameplate. At terminals only a licensed electrician measures, with a true-rms meter.",
                "The stroke goes with about the square of the voltage: 5 % less voltage is 10 % less stroke.",
            ],
            [
                Choice("right", "within 3 % of the nameplate", "You found the voltage within 3 % of the nameplate.", "A supply that is too low or too high is ruled out; a controller that fires at the wrong point is not.", 0.92, ("supply", 0.30), ("drive-out", 0.86), (Healthy, 0.95)),
                Choice("low", "too low", "You found the voltage too low.", "A low stroke is explained by it before anything else: have the supply put right, then measure.", 0.05, ("supply", 0.45), ("drive-out", 0.10), (Healthy, 0.03)),
                Choice("high", "too high", "You found the voltage too high.", "A high stroke is explained by it: turn the controller down at once, have the supply put right, then measure.", 0.03, ("supply", 0.25), ("drive-out", 0.04), (Healthy, 0.02)),
            ]),
        new("leaf-sound", "Sound of the leaves in place", true,
            [
                "Tap each leaf near its middle with a light hammer and listen. Neighbours of one stack and thickness ring alike.",
                "A leaf that sounds dull or buzzes is cracked, loose in its clamp, or lies on dirt. Look at it with a lamp, at the edge of the clamp above all.",
            ],
            [
                Choice("alike", "all sound alike", "You found all leaves sounding alike.", "A cracked leaf is not likely; the drop test tells more once leaves are out.", 0.95, ("leaf-cracked", 0.20), ("leaf-friction", 0.70), ("clamp-loose", 0.60), (Healthy, 0.98)),
                Choice("dull", "one or more sound dull", "You found a leaf that sounds dull beside its neighbours.", "A cracked leaf fits, or a loose clamp: check the bolts, take the leaf out and drop it.", 0.05, ("leaf-cracked", 0.80), ("leaf-friction", 0.30), ("clamp-loose", 0.40), (Healthy, 0.02)),
            ]),
        new("leaf-drop", "Drop test of leaves that are out", true,
            [
                "Let each leaf fall on its end from knee height on a concrete floor, feet away. A whole leaf rings, a cracked one clacks.",
                "Prop the tray before leaves come out: they can be under preload. A leaf that fails is replaced by one of the same thickness.",
            ],
            [
                Choice("rings", "all ring", "You found every leaf ringing when it was dropped.", "A cracked leaf is ruled out.", 0.98, ("leaf-cracked", 0.10), (Healthy, 0.997)),
                Choice("clacks", "one or more clack", "You found a leaf that does not ring when it is dropped.", "That leaf is cracked: replace it by one of the same thickness, and look at its neighbours.", 0.02, ("leaf-cracked", 0.90), (Healthy, 0.003)),
            ]),
        new("cracks", "Cracks in tray, welds and brackets", true,
            [
                "Clean the welds of tray, spring brackets and magnet bracket and look along them with a lamp held flat. Rust-coloured or black dust in a line is a crack at work.",
                "Dye tells where eyes do not. Weld nothing before the maker's manual has been asked.",
            ],
            [
                Choice("none", "none", "You found no crack in tray, welds and brackets.", "A cracked tray is all but ruled out.", 0.98, ("tray-cracked", 0.12), (Healthy, 0.995)),
                Choice("crack", "a crack", "You found a crack in the tray, a weld or a bracket.", "Take the feeder out of use until it is repaired: a crack grows, and nothing can be tuned on it.", 0.02, ("tray-cracked", 0.88), (Healthy, 0.005)),
            ]),
        new("bolts", "Bolts of the spring clamps", true,
            [
                "Hold a torque wrench, set to the manual's torque, on every clamp bolt. Any that turns was loose.",
                "Engagement of the thread is at least 1.5 bolt diameters; leaves and clamped faces are dry and clean.",
            ],
            [
                Choice("tight", "all tight", "You found every clamp bolt tight.", "A loose clamp is all but ruled out.", 0.93, ("clamp-loose", 0.12), ("uneven-stroke", 0.70), ("leaf-friction", 0.85), (Healthy, 0.97)),
                Choice("loose", "one or more turned", "You found a clamp bolt loose.", "A loose clamp fits: clean and dry the faces, tighten all bolts to the manual's torque, measure again, and check them again after a day.", 0.07, ("clamp-loose", 0.88), ("uneven-stroke", 0.30), ("leaf-friction", 0.15), (Healthy, 0.03)),
            ]),
        new("air-gap", "Air gap between armature and core", true,
            [
                "Gauge the gap at all four corners with a feeler gauge that is not magnetic (brass or plastic), magnet dead. Fingers out: a magnet that wakes closes the gap.",
                "The value is the manual's or the feeder file's; all four corners are alike within a tenth.",
            ],
            [
                Choice("right", "as the manual asks, all round", "You found the air gap as the manual asks, all round.", "A wrong gap is ruled out.", 0.85, ("air-gap", 0.08), ("clamp-loose", 0.60), ("leaf-cracked", 0.70), (Healthy, 0.94)),
                Choice("small", "too small", "You found the air gap too small.", "It pulls too hard and may strike: find out what moved (a core, a bracket, sagging leaves), then set it.", 0.05, ("air-gap", 0.50), ("clamp-loose", 0.12), ("leaf-cracked", 0.10), (Healthy, 0.02)),
                Choice("uneven", "uneven", "You found the air gap uneven.", "It pulls to one side: find out what is bent or loose, then set it even all round.", 0.05, ("air-gap", 0.40), ("clamp-loose", 0.20), ("leaf-cracked", 0.15), (Healthy, 0.02)),
                Choice("wide", "too wide", "You found the air gap too wide.", "The magnet pulls too little through it and draws more current, which heats the coil: set it, then measure again.", 0.05, ("air-gap", 0.02), ("clamp-loose", 0.08), ("leaf-cracked", 0.05), (Healthy, 0.02)),
            ]),
        new("coil", "Another coil assembly", true,
            [
                "Last of all, where all other checks found nothing: put in a coil assembly that is known to be good, set the gap, measure. Coils can be hot; a licensed person connects them.",
                "Answer after that measurement.",
            ],
            [
                Choice("unchanged", "the stroke stayed as it was", "You found the stroke the same with another coil assembly.", "The coil was not it: the old one may go back.", 0.95, ("drive-out", 0.25), ("air-gap", 0.60), (Healthy, 0.97)),
                Choice("came-back", "the stroke came back", "You found the stroke back with another coil assembly.", "The old coil assembly was weak, or its gap was wrong.", 0.05, ("drive-out", 0.75), ("air-gap", 0.40), (Healthy, 0.03)),
            ]),
    ];

    /// <summary>Finds a check by its id; null for none.</summary>
    public static GuidedCheck? Find(string id) => All.FirstOrDefault(check => check.Id == id);

    private static CheckChoice Choice(string id, string words, string found, string tells, double otherwise, params (string Cause, double Probability)[] given) =>
        new(id, words, found, tells, otherwise, given.ToDictionary(row => row.Cause, row => row.Probability, StringComparer.Ordinal));
}
