using Homestretch.Web.Tests;

// One server and one browser for all tests.
[assembly: AssemblyFixture(typeof(SharedServer))]
[assembly: AssemblyFixture(typeof(SharedBrowser))]
