namespace Homestretch.Web.Tests;

/// <summary>The server that most tests share.</summary>
public sealed class SharedServer : IAsyncLifetime
{
    private readonly string _data = Path.Combine(Path.GetTempPath(), "homestretch-web-" + Guid.NewGuid().ToString("N"));
    private ServerProcess? _process;

    /// <summary>The running program.</summary>
    public ServerProcess Process => _process ?? throw new InvalidOperationException("Not started yet.");

    /// <summary>Its data folder.</summary>
    public string Data => _data;

    /// <summary>An address on it.</summary>
    public Uri At(string path) => new(Process.Address, path);

    /// <summary>A client that follows no redirection and keeps cookies.</summary>
    public HttpClient Client() => new(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = Process.Address };

    public async ValueTask InitializeAsync() => _process = await ServerProcess.StartAsync(_data);

    public async ValueTask DisposeAsync()
    {
        if (_process is not null)
        {
            await _process.DisposeAsync();
        }

        if (Directory.Exists(_data))
        {
            Directory.Delete(_data, recursive: true);
        }
    }
}
