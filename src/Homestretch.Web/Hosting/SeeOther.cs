namespace Homestretch.Web.Hosting;

/// <summary>303: fetch this address with GET. The answer to every form that changes something, so that reloading a page repeats nothing.</summary>
/// <param name="address">The address.</param>
public sealed class SeeOther(string address) : IResult
{
    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        ArgumentNullException.ThrowIfNull(httpContext);
        httpContext.Response.StatusCode = StatusCodes.Status303SeeOther;
        httpContext.Response.Headers.Location = address;
        return Task.CompletedTask;
    }
}
