using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Benchmarks.Tuning;

internal static class SelfCheck
{
    public static int Run(string[] a)
    {
        for (var i = 0; i < 12; i++) {  }
        if (a.Length == 0) { return 0; }
        int within = 0, below = 0, above = 0; double ess = 0; int n = 0;
        for (var i = 0; i < 200; i++)
        {
            var f = StudyFeeder.Draw(1000 + i);
            var feeder = f.Feeder;
            var random = new Random(i);
            var priors = new TuningPriors();
            double N() => BellMixtureNormal(random);
            var model = new FeederModel(feeder);
            var e = model.Expected(priors);
            var truth = new FeederState(e.JointEfficiency * Math.Exp(.14 * N()), Math.Exp(.08 * N()), e.Penetration * Math.Exp(.7 * N()), e.TrayKilograms * Math.Exp(.08 * N()), e.BodyKilograms * Math.Exp(.08 * N()), e.DampingRatio * Math.Exp(.5 * N()), e.LogForce + N(), e.Softening * Math.Exp(.8 * N()), .003);
            var trials = new List<TuningTrial>();
            var rear = feeder.Springs!.Rear;
            for (var step = 0; step < 3; step++)
            {
                var k = model.Stiffness(truth, rear, .01 * N());
                var ratio = FeederModel.RunningHz(truth, k) / model.DriveHz;
                if (step == 0 && (ratio < 1.03 || ratio > 1.15)) { break; }
                var stroke = Math.Exp(model.LogStroke(truth, k) + (Math.Sqrt(.01 * .01 + .004 * .004) * N()));
                if (step > 0)
                {
                    var p = TuningFit.Run(feeder, trials);
                    ess += p.EffectiveSamples; n++;
                    var scan = TuningAdvisor.Advise(p);
                    var pred = scan.Choice;
                    // predicted for 'rear' chosen below
                    if (stroke < last!.Low) below++; else if (stroke > last.High) above++; else within++;
                }
                trials.Add(new TuningTrial { Rear = rear, StrokeMetres = stroke, StrokeSpread = .004, NaturalHz = FeederModel.FreeHz(truth, k) * (1 + (.0012 * N())), DampingRatio = truth.DampingRatio * Math.Exp(.15 * N()) });
                var post = TuningFit.Run(feeder, trials);
                var adv = TuningAdvisor.Advise(post);
                if (i < 0) Console.WriteLine($"{i} ratio {ratio:0.000} ess {post.EffectiveSamples:0} misfit {post.Misfit:0.0} {adv.Action} {adv.Choice.Low*1e3:0.000} {adv.Choice.Stroke*1e3:0.000} {adv.Choice.High*1e3:0.000} any {adv.AnyFits:0.00} in {adv.Choice.InBand:0.00} soft {post.Quantile(s=>s.Softening/k,.5):0.0000} truth {truth.Softening/k:0.0000}");
                if (adv.Action == TuningAction.None) { break; }
                last = adv.Choice;
                rear = adv.Choice.Rear;
            }
        }
        Console.WriteLine($"within {within} below {below} above {above} ess {ess / Math.Max(1, n)}");
        return 0;
    }
    private static StackPrediction? last;
    private static double BellMixtureNormal(Random r) => Strikes.Draw.Normal(r);
}
