using Homestretch.Files.Printing;
using Homestretch.Store;
using Homestretch.Web.Afterwards;
using Homestretch.Web.Api;
using Homestretch.Web.Assuming;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Exams;
using Homestretch.Web.Hosting;
using Homestretch.Web.Importing;
using Homestretch.Web.Keeping;
using Homestretch.Web.Pages;
using Homestretch.Web.Printing;
using Homestretch.Web.Quizzing;
using Homestretch.Web.Uploads;
using Homestretch.Web.WordPractice;

using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http.Features;

using NodaTime;
using NodaTime.Extensions;

const int DaysUntilErased = 30;

// Started from any folder, the program finds its own files.
WebApplicationBuilder builder = WebApplication.CreateBuilder(new WebApplicationOptions { Args = args, ContentRootPath = AppContext.BaseDirectory });
builder.WebHost.UseStaticWebAssets();

DataFolder data;
CaseStore store;
CandidateDoor door;
try
{
    door = CandidateDoor.Of(builder.Configuration["candidates"]);
    data = DataFolder.Of(builder.Configuration["data"]);
    store = await data.OpenStoreAsync(builder.Configuration["database"] ?? builder.Configuration["HOMESTRETCH_DATABASE"]);
}
catch (Exception e) when (e is StoreProblemException or InvalidOperationException)
{
    await Console.Error.WriteLineAsync(e is StoreProblemException ? $"Cases cannot be kept: {e.Message}" : e.Message);
    return 1;
}

builder.Services.AddSingleton(TimeProvider.System);
builder.Services.AddSingleton(store);
builder.Services.AddSingleton(DemoCases.Load(Path.Combine(AppContext.BaseDirectory, "examples", "museum-registrar")));
builder.Services.AddSingleton<CaseLibrary>();
builder.Services.AddSingleton<PdfPrinter>();
builder.Services.AddHostedService<DemoWarmUp>();
builder.Services.AddSingleton(_ => new Drafts(TimeSpan.FromHours(1), 200L * 1024 * 1024));
builder.Services.AddSingleton(door);
builder.Services.AddSingleton<FreshLinks>();
builder.Services.AddSingleton<PlanKeeper>();
builder.Services.AddSingleton<PlanBacklog>();
builder.Services.AddHostedService(services => services.GetRequiredService<PlanBacklog>());
builder.Services.AddSingleton<PersonalCases>();
builder.Services.AddSingleton<Workbench>();
builder.Services.AddSingleton<RoomImport>();
builder.Services.AddSingleton<FirstPlans>();
builder.Services.AddSingleton<ExamEdits>();
builder.Services.AddSingleton<ExamLibrary>();
builder.Services.AddSingleton<ExamVersions>();
builder.Services.AddSingleton<PlansAnew>();
builder.Services.AddSingleton<WordShelf>();
builder.Services.AddSingleton<QuizShelf>();
builder.Services.AddRateLimiter(CandidateDoor.AddLimit);
builder.Services.AddRazorComponents();
builder.Services.AddOpenApi("v1", ApiDescription.Set);
builder.Services.ConfigureHttpJsonOptions(options => ApiJson.Set(options.SerializerOptions));
builder.Services.Configure<RouteHandlerOptions>(options => options.ThrowOnBadRequest = true);
builder.Services.AddAntiforgery(options =>
{
    options.Cookie.Name = "homestretch-form";
    options.Cookie.SameSite = SameSiteMode.Strict;
});
builder.Services.AddDataProtection().SetApplicationName("homestretch").PersistKeysToFileSystem(new DirectoryInfo(data.Keys));
builder.Services.AddRequestTimeouts(options => options.DefaultPolicy = new() { Timeout = TimeSpan.FromSeconds(30) });
builder.Services.AddResponseCompression();
builder.Services.Configure<FormOptions>(options =>
{
    options.MultipartBodyLengthLimit = Upload.MostBytes;
    options.ValueCountLimit = 128;
    options.ValueLengthLimit = 4096;
});
if (door.Address is { } further)
{
    string usual = builder.Configuration[WebHostDefaults.ServerUrlsKey] ?? "http://127.0.0.1:5080";
    builder.WebHost.UseUrls([.. usual.Split(';'), further.GetLeftPart(UriPartial.Authority)]);
}

builder.WebHost.ConfigureKestrel(kestrel =>
{
    kestrel.AddServerHeader = false;

    // Four times what is accepted: an upload that is somewhat too large is read to its end, so that the browser shows our
    // page about it rather than a broken connection.
    kestrel.Limits.MaxRequestBodySize = 4 * Upload.MostBytes;
    kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(15);
});

WebApplication app = builder.Build();
await store.EraseRemovedAsync(app.Services.GetRequiredService<TimeProvider>().GetUtcNow().ToInstant() - Duration.FromDays(DaysUntilErased));

app.UseSecurityHeaders();
door.Use(app);
app.UseExceptionHandler(new ExceptionHandlerOptions
{
    ExceptionHandlingPath = ProblemPage.Address,

    // A page that failed half-way leaves services that cannot render another one.
    CreateScopeForErrors = true,
    StatusCodeSelector = e => e switch
    {
        BadHttpRequestException bad => bad.StatusCode,
        TimeoutException => StatusCodes.Status504GatewayTimeout,
        _ => StatusCodes.Status500InternalServerError,
    },
});
app.UseStatusCodePagesWithReExecute(ProblemPage.Address, createScopeForStatusCodePages: true);
app.UseApiGuard();
app.Use((context, next) =>
{
    // The page about a failed form is fetched, not posted to; the form has been dealt with.
    if (context.Request.Path == ProblemPage.Address)
    {
        context.Request.Method = HttpMethods.Get;
    }
    else if (context.Request.ContentLength > Upload.MostBytes)
    {
        context.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
        return Task.CompletedTask;
    }

    return next(context);
});
app.UseResponseCompression();
app.UseRouting();
app.UseRateLimiter();
app.UseRequestTimeouts();
app.UseAntiforgery();
app.MapStaticAssets();
app.MapLook();
app.MapUploads();
app.MapImport();
app.MapExams();
app.MapDownloads();
app.MapPrinting();
app.MapKept();
app.MapPersonal();
app.MapApi();
app.MapResults();
app.MapWords();
app.MapQuizzes();
app.MapRazorComponents<App>();
await app.RunAsync();
return 0;
