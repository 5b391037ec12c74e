"""A real Chromium without a screen, for the pages that rigdeed makes."""
import json, os, time

from selenium import webdriver
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.actions.wheel_input import ScrollOrigin
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys


class Browser:
    """One window; `keys` types into what has the focus, as a person does."""

    def __init__(self, width, height, downloads, touch=False, dark=False):
        options = webdriver.ChromeOptions()
        options.binary_location = "/usr/bin/chromium"
        for word in ("--headless=new", "--no-sandbox", "--disable-gpu", "--lang=en-GB", f"--window-size={width},{height}"):
            options.add_argument(word)
        if touch:
            options.add_experimental_option("mobileEmulation", {"deviceMetrics": {"width": width, "height": height, "pixelRatio": 2, "touch": True}})
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        self.driver = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
        self.driver.set_script_timeout(20)
        self.downloads = downloads
        os.makedirs(downloads, exist_ok=True)
        self.cdp("Browser.setDownloadBehavior", behavior="allow", downloadPath=downloads)
        if dark:
            self.cdp("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": "dark"}])
        self.requests, self.complaints = [], []

    def cdp(self, name, **words):
        return self.driver.execute_cdp_cmd(name, words)

    def open(self, path):
        self.driver.get("file://" + path)
        self.wait("return document.documentElement.dataset.ready === 'yes'")

    def js(self, text, *words):
        return self.driver.execute_script(text, *words)

    def wait(self, truth, seconds=10):
        end = time.time() + seconds
        while time.time() < end:
            found = self.js(truth)
            if found:
                return found
            time.sleep(0.03)
        raise TimeoutError(truth)

    def keys(self, *words):
        ActionChains(self.driver).send_keys(*words).perform()

    def text(self, selector):
        return self.js("return document.querySelector(arguments[0])?.textContent ?? ''", selector)

    def focused(self):
        return self.js("return document.activeElement?.id || document.activeElement?.tagName")

    def find(self, selector):
        return self.driver.find_element(By.CSS_SELECTOR, selector)

    def click(self, selector):
        self.js("document.querySelector(arguments[0]).scrollIntoView({block: 'center'})", selector)
        self.find(selector).click()

    def on_photo(self, view, point):
        """Where on the screen a point of the photo is."""
        box = self.js("const b = document.querySelector(arguments[0] + ' .sheet').getBoundingClientRect(); return [b.left, b.top, b.width]", "#view-" + view)
        return box[0] + point[0] * box[2], box[1] + point[1] * box[2]

    def wheel(self, view, point, by):
        x, y = self.on_photo(view, point)
        ActionChains(self.driver).scroll_from_origin(ScrollOrigin.from_viewport(round(x), round(y)), 0, by).perform()

    def drag(self, start, end):
        chain = ActionChains(self.driver)
        chain.w3c_actions.pointer_action.move_to_location(round(start[0]), round(start[1])).pointer_down()
        chain.w3c_actions.pointer_action.move_to_location(round((start[0] + end[0]) / 2), round((start[1] + end[1]) / 2))
        chain.w3c_actions.pointer_action.move_to_location(round(end[0]), round(end[1])).pointer_up()
        chain.perform()

    def saved(self, act):
        """The file that `act` makes the page hand over."""
        there = set(os.listdir(self.downloads))
        act()
        end = time.time() + 10
        while time.time() < end:
            new = [name for name in set(os.listdir(self.downloads)) - there if name.endswith(".xml")]
            if new and os.path.getsize(f"{self.downloads}/{new[0]}") > 0:
                return f"{self.downloads}/{new[0]}"
            time.sleep(0.05)
        raise TimeoutError("nothing was saved")

    def log(self):
        """What it asked for and what it complained of, so far."""
        for entry in self.driver.get_log("performance"):
            message = json.loads(entry["message"])["message"]
            if message["method"] == "Network.requestWillBeSent":
                self.requests.append(message["params"]["request"]["url"])
        self.complaints += [entry["message"] for entry in self.driver.get_log("browser")]
        return self.requests, self.complaints

    def close(self):
        self.log()
        self.driver.quit()


__all__ = ["Browser", "By", "Keys"]
