using BenchmarkDotNet.Running;

using Homestretch.Bench;

BenchmarkSwitcher.FromAssembly(typeof(ModelBench).Assembly).Run(args);
