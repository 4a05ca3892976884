//! The driver of the browser, on a port that it finds for itself.

use crate::Outcome;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};

/// Ends with its value.
pub(crate) struct Driver {
    child: Child,
    pub(crate) url: String,
}

impl Driver {
    pub(crate) fn start(program: &Path) -> Outcome<Driver> {
        let mut child = Command::new(program)
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|why| format!("can't start {}: {why}", program.display()))?;
        let said = child.stdout.take().ok_or("the driver has nothing to say")?;
        let mut driver = Driver { child, url: String::new() };
        let mut lines = BufReader::new(said).lines();
        while let Some(line) = lines.next().transpose()? {
            let port = line.split_once("on port ").map(|(_, port)| port.trim_end_matches('.'));
            if let Some(port) =
                port.and_then(|port| port.parse::<u16>().ok()).filter(|port| *port > 0)
            {
                driver.url = format!("http://127.0.0.1:{port}");
                // Whatever else it says is read, so that it never waits to be heard.
                std::thread::spawn(move || lines.for_each(drop));
                return Ok(driver);
            }
        }
        Err("the driver ended before it named its port".into())
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        self.child.kill().ok();
        self.child.wait().ok();
    }
}
