//! A browser before an open desk: Debian's chromium, driven over WebDriver (W3C Recommendation).

use std::future::Future;
use std::io::Write as _;
use std::net::SocketAddr;
use std::path::PathBuf;
use std::process::Stdio;
use std::time::{Duration, Instant};

use desk::{Desk, Options};
use fantoccini::{Client, ClientBuilder, Locator};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use tokio::process::{Child, Command};
use tokio::sync::{Mutex, MutexGuard};
use tokio::task::JoinHandle;

/// The machine may be busy with other tests.
const PATIENCE: Duration = Duration::from_secs(40);

/// One browser at a time, so that small machines keep up.
static ONE: Mutex<()> = Mutex::const_new(());

/// How the browser is set up.
#[derive(Clone, Copy)]
pub(crate) struct Browser {
    pub(crate) width: u32,
    pub(crate) height: u32,
    pub(crate) script: bool,
}

impl Default for Browser {
    fn default() -> Browser {
        Browser { width: 1280, height: 800, script: true }
    }
}

/// An open desk and a browser before it.
pub(crate) struct Room {
    pub(crate) client: Client,
    pub(crate) url: String,
    desk: JoinHandle<()>,
    driver: Child,
    _profile: tempfile::TempDir,
    _one: MutexGuard<'static, ()>,
}

/// Runs a test in a room. Without chromium the test is left out, and says so, unless
/// `TAUTLINE_BROWSER=required` asks for it.
pub(crate) async fn in_a_room<F: Future<Output = Room>>(browser: Browser, test: impl FnOnce(Room) -> F) {
    let (Some(chromium), Some(driver)) = (program("chromium"), program("chromedriver")) else {
        let required = std::env::var("TAUTLINE_BROWSER").is_ok_and(|value| value == "required");
        assert!(!required, "TAUTLINE_BROWSER=required, but chromium or chromedriver is missing");
        // Written past the test harness, which swallows what passing tests print.
        let _ = writeln!(std::io::stderr(), "left out: browser tests (no chromium)");
        return;
    };
    let room = Room::open(browser, chromium, driver).await;
    test(room).await.close().await;
}

fn program(name: &str) -> Option<PathBuf> {
    let places = std::env::var_os("PATH")?;
    std::env::split_paths(&places).map(|place| place.join(name)).find(|path| path.is_file())
}

impl Room {
    async fn open(browser: Browser, chromium: PathBuf, driver: PathBuf) -> Room {
        let one = ONE.lock().await;
        let any: SocketAddr = "127.0.0.1:0".parse().unwrap();
        let desk = Desk::open(&Options { addr: Some(any), ..Options::default() }).await.unwrap();
        let url = desk.url();
        let desk = tokio::spawn(async move { desk.serve().await.unwrap() });

        let port = std::net::TcpListener::bind(any).unwrap().local_addr().unwrap().port();
        let driver = Command::new(driver)
            .arg(format!("--port={port}"))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .kill_on_drop(true)
            .spawn()
            .unwrap();
        let profile = tempfile::tempdir().unwrap();
        let Browser { width, height, script } = browser;
        let options = json!({
            "binary": chromium,
            "args": [
                "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-dev-shm-usage",
                "--disable-background-networking", "--disable-component-update", "--disable-sync",
                format!("--user-data-dir={}", profile.path().display()),
                format!("--window-size={width},{height}"),
            ],
            "mobileEmulation": { "deviceMetrics": { "width": width, "height": height, "pixelRatio": 1.0, "mobile": false, "touch": false } },
            "prefs": { "profile.managed_default_content_settings.javascript": if script { 1 } else { 2 } },
        });
        let mut capabilities = fantoccini::wd::Capabilities::new();
        capabilities.insert("goog:chromeOptions".to_owned(), options);
        let began = Instant::now();
        let client = loop {
            let mut builder = ClientBuilder::new(HttpConnector::new());
            match builder
                .capabilities(capabilities.clone())
                .connect(&format!("http://127.0.0.1:{port}"))
                .await
            {
                Ok(client) => break client,
                Err(why) if began.elapsed() > PATIENCE => panic!("no browser: {why}"),
                Err(_) => tokio::time::sleep(Duration::from_millis(200)).await,
            }
        };
        Room { client, url, desk, driver, _profile: profile, _one: one }
    }

    async fn close(mut self) {
        self.desk.abort();
        let _ = self.client.close().await;
        let _ = self.driver.kill().await;
    }

    /// Closes the desk under the open page.
    pub(crate) async fn close_desk(&mut self) {
        self.desk.abort();
        let _ = (&mut self.desk).await;
    }

    /// Goes to a path on the desk.
    pub(crate) async fn go(&self, path: &str) {
        self.client.goto(&format!("{}{}", self.url.trim_end_matches('/'), path)).await.unwrap();
    }

    /// What an expression of the page's script language gives.
    pub(crate) async fn eval(&self, expression: &str) -> Value {
        self.client.execute(&format!("return {expression};"), Vec::new()).await.unwrap()
    }

    /// Waits until an expression holds.
    pub(crate) async fn until(&self, expression: &str) {
        let began = Instant::now();
        while self.eval(&format!("!!({expression})")).await != Value::Bool(true) {
            if began.elapsed() > PATIENCE {
                panic!("never so: {expression}\nat {}: {}", self.focus().await, self.text("#outcome").await);
            }
            tokio::time::sleep(Duration::from_millis(40)).await;
        }
    }

    /// Waits until the outcome holds these words.
    pub(crate) async fn outcome(&self, words: &str) {
        self.until(&format!("document.querySelector('#outcome').textContent.includes({words:?})")).await;
    }

    /// The visible text of the first element that a selector finds.
    pub(crate) async fn text(&self, selector: &str) -> String {
        self.client.find(Locator::Css(selector)).await.unwrap().text().await.unwrap()
    }

    /// What is written in an input.
    pub(crate) async fn value(&self, selector: &str) -> String {
        let element = self.client.find(Locator::Css(selector)).await.unwrap();
        element.prop("value").await.unwrap().unwrap_or_default()
    }

    /// Writes into an input after what is there.
    pub(crate) async fn write(&self, selector: &str, text: &str) {
        self.client.find(Locator::Css(selector)).await.unwrap().send_keys(text).await.unwrap();
    }

    /// Writes into an input in place of what is there.
    pub(crate) async fn rewrite(&self, selector: &str, text: &str) {
        let all = format!(
            "{}a{}",
            char::from(fantoccini::key::Key::Control),
            char::from(fantoccini::key::Key::Null)
        );
        self.write(selector, &format!("{all}{text}")).await;
    }

    /// Presses keys wherever the focus is.
    pub(crate) async fn press(&self, keys: &str) {
        self.client.active_element().await.unwrap().send_keys(keys).await.unwrap();
    }

    /// The id of the element that has the focus.
    pub(crate) async fn focus(&self) -> String {
        self.eval("document.activeElement.id").await.as_str().unwrap_or_default().to_owned()
    }

    /// Clicks.
    pub(crate) async fn click(&self, selector: &str) {
        self.client.find(Locator::Css(selector)).await.unwrap().click().await.unwrap();
    }

    /// Holds the page to the rules of axe-core (WCAG 2.0 to 2.2, levels A and AA, and its own good practice).
    pub(crate) async fn check_access(&self, what: &str) {
        self.client.execute(include_str!("../vendor/axe.min.js"), Vec::new()).await.unwrap();
        let script = "const done = arguments[arguments.length - 1];
            axe.run().then(r => done(r.violations.flatMap(v => v.nodes.map(n => v.id + ': ' + n.target + ' ' + n.failureSummary))), e => done([String(e)]));";
        let found = self.client.execute_async(script, Vec::new()).await.unwrap();
        assert_eq!(found, json!([]), "{what}");
    }

    /// The page fits the width of the window.
    pub(crate) async fn check_width(&self, what: &str) {
        let wide = self.eval("[document.documentElement.scrollWidth, innerWidth]").await;
        let (content, window) = (wide[0].as_u64().unwrap(), wide[1].as_u64().unwrap());
        assert!(content <= window, "{what}: {content} px of page in a window of {window} px");
    }

    /// Takes a picture of the window where `TAUTLINE_PICTURES` names a folder for it.
    pub(crate) async fn picture(&self, name: &str) {
        if let Some(folder) = std::env::var_os("TAUTLINE_PICTURES") {
            let picture = self.client.screenshot().await.unwrap();
            std::fs::write(PathBuf::from(folder).join(format!("{name}.png")), picture).unwrap();
        }
    }
}
